"""`netaudit new`: a few questions, and a plan."""

from __future__ import annotations

import os
import sys
from contextlib import redirect_stdout
from io import TextIOWrapper
from typing import TYPE_CHECKING, Any, TextIO

import click

from netaudit.cli.output import write_text
from netaudit.errors import InputError, Problem

if TYPE_CHECKING:
    from netaudit.plan.drafting.answers import Answers
    from netaudit.plan.drafting.questions import Question


class _Explained(click.Command):
    """A command whose help lists the questions."""

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 - click's
        """List each question with its default."""
        from netaudit.plan.drafting.questions import QUESTIONS  # noqa: PLC0415 - only this help pays for it

        with formatter.section("Answers (all may be left out)"):
            formatter.write_dl([(question.key, question.explained) for question in QUESTIONS])


@click.command(cls=_Explained, short_help="Ask a few questions, write a plan.")
@click.argument("file", metavar="FILE", type=click.Path())
@click.option(
    "--answers",
    metavar="ANSWERS",
    type=click.Path(),
    help="Take the answers from a file (- is the input).",
)
def new(file: str, answers: str | None) -> None:
    """Ask a few questions about a room and write a plan of it to FILE, - for the output, with comments.

    Enter takes the default, ? explains a question, Ctrl-C writes nothing. A file that exists is never written over.
    Where there is no terminal to ask on, --answers is needed: YAML, a line such as `seats: 3` for each answer that is
    not the default, several answers as a list or with commas between. `{}` takes every default.
    """
    from netaudit.plan.draft import draft  # noqa: PLC0415 - --help never pays for it
    from netaudit.plan.drafting.remarks import remarks  # noqa: PLC0415 - as above
    from netaudit.plan.scalars.text import printable  # noqa: PLC0415 - as above
    from netaudit.plan.writing.write import write  # noqa: PLC0415 - as above

    _require_free(file)
    plan = draft(_asked() if answers is None else _read(answers))
    text = write(plan, remarks(plan))
    if file == "-":
        write_text(text, file)
        return
    _write_new(text, file)
    click.echo(f"{printable(file)} is written; judge it with: netaudit check {printable(file)}")


def _require_free(file: str) -> None:
    """Raise InputError, before anybody is asked anything, where the plan could not be written."""
    if file == "-":
        return
    if os.path.lexists(file):
        raise InputError([Problem(file, "this exists, and `new` writes over nothing: choose another name")])
    folder = os.path.dirname(file) or os.curdir
    if not os.path.isdir(folder):
        raise InputError([Problem(file, f"there is no folder {folder!r} to write in: check the path")])


def _write_new(text: str, file: str) -> None:
    try:
        with open(file, "x", encoding="utf-8", newline="\n") as opened:
            opened.write(text)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else error
        raise InputError([Problem(file, f"cannot be written: {reason}")]) from error


def _read(answers: str) -> Answers:
    from netaudit.plan.drafting.interview import answers_in  # noqa: PLC0415 - --help never pays for it
    from netaudit.plan.reading.files import LARGEST_BYTES, read_bytes  # noqa: PLC0415 - as above

    if answers != "-":
        return answers_in(read_bytes(answers), answers)
    if sys.stdin is None:
        raise InputError([Problem("--answers -", "the input is closed: name a file instead")])
    return answers_in(sys.stdin.buffer.read(LARGEST_BYTES + 1), "<input>")


def _asked() -> Answers:
    """The answers that somebody gives on the terminal; raises InputError where there is none."""
    from netaudit.plan.drafting.interview import answers_of  # noqa: PLC0415 - --help never pays for it
    from netaudit.plan.drafting.questions import QUESTIONS  # noqa: PLC0415 - as above

    screen = _terminal()
    given: dict[str, Any] = {}
    with redirect_stdout(screen):
        click.echo("Enter takes what stands in brackets, ? explains, Ctrl-C ends without writing anything.")
        try:
            for question in QUESTIONS:
                given[question.key] = _answer(question, given)
        except click.Abort:
            click.echo("\nNothing is written.")
            raise
    return answers_of(given)


def _terminal() -> TextIO:
    """Where questions can be shown and are read."""
    screen = sys.stdout if sys.stdout.isatty() else sys.stderr
    if sys.stdin is None or not sys.stdin.isatty() or not screen.isatty():
        message = "there is no terminal to ask on: give the answers with --answers FILE, or --answers - for the input"
        raise InputError([Problem("netaudit new", message)])
    if isinstance(sys.stdin, TextIOWrapper):
        sys.stdin.reconfigure(errors="surrogateescape")
    return screen


def _answer(question: Question, given: dict[str, Any]) -> Any:
    """The answer to one question, asked until it can be taken; where only one makes sense, that."""
    from netaudit.plan.drafting.replies import ReplyError  # noqa: PLC0415 - --help never pays for it

    default = question.default_text(given)
    while question.worthwhile(given):
        text = click.prompt(question.wording(given), default=default)
        if text.strip() == "?":
            click.echo(f"  {question.explained}")
            continue
        try:
            return question.read(text, given)
        except ReplyError as error:
            for misfit in error.misfits:
                click.echo(f"  {misfit.message}")
    return question.read(default, given)
