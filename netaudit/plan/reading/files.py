"""The bytes of a plan, or of a sheet beside it, from its file, and its text from the bytes."""

from __future__ import annotations

import os
from itertools import islice

from netaudit.errors import InputError, Problem, nearest
from netaudit.plan.reading.raw import Positions
from netaudit.plan.scalars.text import printable, quoted

LARGEST_BYTES = 16 * 1024 * 1024
"""Size of the largest plan that is read [byte]."""
_LISTED = 10_000
"""Files of a folder that a missing one is compared with."""
_UTF_16_MARKS = (b"\xff\xfe", b"\xfe\xff")


def read_bytes(file: str, what: str = "plan") -> bytes:
    """The bytes of a file, one more than is allowed at most; raises InputError where it cannot be read.

    `what` names in messages what the file is meant to hold.
    """
    try:
        with open(file, "rb", opener=_opened) as opened:
            return opened.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        message = _missing(file)
    except IsADirectoryError:
        message = _folder(what)
    except PermissionError:
        message = _folder(what) if os.path.isdir(file) else (
            "you may not read this file: ask its owner, or change its permissions"
        )  # fmt: skip
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        message = f"the file cannot be read: {printable(reason)}"
    raise InputError([Problem(printable(file), message)])


def _folder(what: str) -> str:
    return f"this is a folder: name the {what}'s file in it"


def _opened(path: str, flags: int) -> int:
    """Open without waiting for somebody to write into a pipe that nobody holds, and read as usual from then on."""
    descriptor = os.open(path, flags | getattr(os, "O_NONBLOCK", 0))
    if hasattr(os, "set_blocking"):
        os.set_blocking(descriptor, True)
    return descriptor


def decoded(data: bytes | str, file: str, what: str = "plan") -> str:
    """The text of a file, without the mark that some editors put first; raises InputError with the bad byte's place.

    `what` names in messages what the file is meant to hold.
    """
    raw = _encoded(data, file) if isinstance(data, str) else data
    if len(raw) > LARGEST_BYTES:
        message = f"the file is larger than {LARGEST_BYTES // 2**20} MiB: divide the {what}"
        raise InputError([Problem(printable(file), message)])
    try:
        return raw.decode().removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        byte = f"the byte 0x{raw[error.start]:02x} is not UTF-8"
        what = "this is UTF-16" if raw.startswith(_UTF_16_MARKS) else byte
        before = raw[: error.start].decode().removeprefix("\ufeff")
        raise _refused(file, before, f"{what}: save the file as UTF-8") from None


def _encoded(text: str, file: str) -> bytes:
    try:
        return text.encode()
    except UnicodeEncodeError as error:
        message = f"{quoted(text[error.start])} is half a character: leave it out"
        raise _refused(file, text[: error.start], message) from None


def _refused(file: str, before: str, message: str) -> InputError:
    position = Positions(before).at(len(before))
    return InputError([Problem(printable(file), message, position.line, position.column)])


def _missing(file: str) -> str:
    folder, name = os.path.split(file)
    try:
        with os.scandir(folder or os.curdir) as entries:
            known = [entry.name for entry in islice(entries, _LISTED)]
    except OSError:
        return f"there is no folder {quoted(folder)}: check the path"
    near = nearest(name, known)
    return "there is no such file" + (f"; did you mean {quoted(near)}?" if near else ": check the name")
