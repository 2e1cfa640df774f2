"""Where a command's answer goes: the terminal, a pipe or a file."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable

import click

from netaudit.errors import InputError, Problem

OUTPUT = click.option("--output", metavar="FILE", type=click.Path(), help="Write to FILE instead of the terminal.")


def refuse_overwriting(output: str | None, inputs: Iterable[str]) -> None:
    """Raise InputError where the answer would be written over one of the files that were asked about."""
    for file in inputs:
        if output is not None and os.path.exists(output) and os.path.exists(file) and os.path.samefile(output, file):
            raise InputError([Problem(output, f"this is the plan {file!r} itself: choose another file for the answer")])


LARGE_BYTES = 1_000_000
"""Size of a file from which on reading and judging it are announced [byte]."""


def announce(file: str, work: str) -> None:
    """Say on a terminal what is done with a large file, so that nobody takes it for a hang."""
    large = os.path.isfile(file) and os.path.getsize(file) > LARGE_BYTES
    if large and sys.stderr.isatty():
        click.echo(f"{file}: {work} …", err=True)


def give_up_output() -> None:
    """Point the output at nothing, since nobody reads it; the verdict still gives the exit code."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def write_text(text: str, output: str | None) -> None:
    """Write an answer; the file is opened only now, so that a failed run leaves none behind.

    Raises InputError where the file cannot be written.
    """
    if output is None or output == "-":
        try:
            click.echo(text, nl=False)
        except BrokenPipeError:
            give_up_output()
        return
    _write_file(text.encode("utf-8", errors="backslashreplace"), output)


def write_bytes(content: bytes, output: str | None) -> None:
    """Write an answer that is no text; raises InputError where the file cannot be written."""
    if output is None or output == "-":
        sys.stdout.buffer.write(content)
        return
    _write_file(content, output)


def _write_file(content: bytes, output: str) -> None:
    try:
        with open(output, "wb") as file:
            file.write(content)
    except OSError as error:
        raise InputError([Problem(output or "--output ''", f"cannot be written: {error.strerror or error}")]) from error
