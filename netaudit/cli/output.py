"""Where a command's answer goes: the terminal, a pipe or a file."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

import click

from netaudit.errors import InputError, Problem

OUTPUT = click.option("--output", metavar="FILE", type=click.Path(), help="Write to FILE instead of the terminal.")


def refuse_overwriting(output: str | None, inputs: Iterable[str]) -> None:
    """Raise InputError where the answer would be written over one of the files that were asked about."""
    for file in inputs:
        if output is not None and os.path.exists(output) and os.path.exists(file) and os.path.samefile(output, file):
            raise InputError([Problem(output, f"{file!r} is read for it: choose another file for the answer")])


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
        with _unread():
            click.echo(text, nl=False)
        return
    _write_file(text.encode("utf-8", errors="backslashreplace"), output)


def write_bytes(content: bytes, output: str | None) -> None:
    """Write an answer that is no text; raises InputError where the file cannot be written."""
    if output is None or output == "-":
        with _unread():
            sys.stdout.buffer.write(content)
            sys.stdout.buffer.flush()
        return
    _write_file(content, output)


@contextmanager
def _unread() -> Iterator[None]:
    """Go on without a word where nobody reads the answer to its end."""
    try:
        yield
    except BrokenPipeError:
        give_up_output()


def _write_file(content: bytes, output: str) -> None:
    """Write a file, which is only replaced when the whole answer is written.

    Pipes, devices and files in folders that take no new one get the answer as it comes. Raises InputError where it
    cannot be written.
    """
    place = os.path.realpath(output)
    closed = not os.access(os.path.dirname(place), os.W_OK)
    try:
        if not output or (os.path.exists(output) and (closed or not os.path.isfile(output))):
            _fill(output, content)
        else:
            _replace(place, content)
    except PermissionError as error:
        if not os.path.isfile(output) or not os.access(output, os.W_OK):
            raise _unwritten(output, error) from error
        _fill(output, content)  # a file that may be written and not replaced, as in a folder that all may write to
    except OSError as error:
        raise _unwritten(output, error) from error


def _unwritten(output: str, error: OSError) -> InputError:
    return InputError([Problem(output or "--output ''", f"cannot be written: {error.strerror or error}")])


def _fill(output: str, content: bytes) -> None:
    """Write into what is there, or make a file of it."""
    with open(output, "wb") as file:
        file.write(content)


def _replace(file: str, content: bytes) -> None:
    """Put a file with some content in the place of one of that name, with the permissions that it has or would have."""
    import tempfile  # noqa: PLC0415 - only answers into files pay for it

    handle, unfinished = tempfile.mkstemp(prefix=".netaudit-", dir=os.path.dirname(file))
    try:
        with open(handle, "wb") as written:
            written.write(content)
        os.chmod(unfinished, os.stat(file).st_mode & 0o7777 if os.path.exists(file) else 0o666 & ~_umask())
        os.replace(unfinished, file)
    except BaseException:
        os.unlink(unfinished)
        raise


def _umask() -> int:
    """Permissions that new files do not get."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
