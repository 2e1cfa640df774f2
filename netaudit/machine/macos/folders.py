"""The share that a folder lies on, found without ever touching a share: a dead one hangs whoever looks at it."""

from __future__ import annotations

import os
import stat
import unicodedata
from collections.abc import Iterable, Mapping

from netaudit.errors import InputError, Problem
from netaudit.model.machine_state import Mount

MOST_LINKS = 32
"""Links that are followed on one path, as the kernel does: Apple, xnu, MAXSYMLINKS in bsd/sys/param.h."""
NO_FOLDER = "there is no such folder; give a folder on the mounted share, or the storage's name or address"


def share_of(folder: str, shares: Iterable[Mount]) -> Mount | None:
    """The mounted share that holds a folder; None where it lies on a disk of this machine.

    Every step is looked at only while it lies on a local disk. Raises InputError where it is not there.
    """
    by_folder = {_folded(share.folder): share for share in shares}
    at, ahead, links = "/", _parts(_absolute(folder)), 0
    while ahead:
        part = ahead.pop(0)
        if part == "..":
            at = os.path.dirname(at)
            continue
        step = os.path.join(at, part)
        target = None if _holding(step, by_folder) else _link(step, folder)
        links += target is not None
        if links > MOST_LINKS:
            raise InputError([Problem(folder, "its links lead in a circle; give a folder on the mounted share")])
        if target is not None:
            at, ahead = ("/" if target.startswith("/") else at), [*_parts(target), *ahead]
        else:
            at = step
    return _holding(at, by_folder)


def _holding(path: str, by_folder: Mapping[str, Mount]) -> Mount | None:
    """The innermost share that a path lies on."""
    folded = _folded(path)
    around = [folder for folder in by_folder if f"{folded}/".startswith(f"{folder}/")]
    return by_folder[max(around, key=len)] if around else None


def _absolute(folder: str) -> str:
    path = os.path.expanduser(folder)
    try:
        return path if path.startswith("/") else os.path.join(os.getcwd(), path)
    except OSError as error:
        raise InputError([Problem(folder, NO_FOLDER)]) from error


def _parts(path: str) -> list[str]:
    return [part for part in path.split("/") if part not in ("", ".")]


def _link(step: str, folder: str) -> str | None:
    """Where a link leads; None for what is none. Raises InputError where there is nothing."""
    try:
        return os.readlink(step) if stat.S_ISLNK(os.lstat(step).st_mode) else None
    except (OSError, ValueError) as error:
        raise InputError([Problem(folder, NO_FOLDER)]) from error


def _folded(path: str) -> str:
    """A path as the Mac's file systems compare them: neither case nor the form of accents counts."""
    return unicodedata.normalize("NFD", path).casefold()
