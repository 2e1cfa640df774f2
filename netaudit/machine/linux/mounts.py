"""The mount that holds a folder, found without ever touching a network file system: a dead share hangs for ever."""

from __future__ import annotations

import os
import stat
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from netaudit.errors import AnswerError, InputError, Problem
from netaudit.machine.linux.daemons import Connection, connections, fuse_daemons, ssh_of
from netaudit.machine.parse.linux.mounts import MountRow, Share, holding, mount_rows, share_of
from netaudit.machine.parse.literals import address_of
from netaudit.machine.small_files import text_of
from netaudit.model.machine_state import Mount

LINKS_AT_MOST = 40
"""Links that are followed on one path: as many as the kernel follows, path_resolution(7)."""
PROC = Path("/proc")


class _Place(NamedTuple):
    """Where a folder really lies."""

    row: MountRow
    path: str
    """Without links as far as they lie on this machine's own disks."""


def mount_of(folder: str, proc: Path = PROC) -> Mount | None:
    """The network file system that holds a folder or file; None where it lies on a disk of this machine.

    Raises InputError where there is no such folder on a local disk, or where nothing is mounted yet on a place that
    is mounted on demand; AnswerError where the table of mounts cannot be read.
    """
    rows = mount_rows(text_of(proc / "self" / "mountinfo"))
    if not rows:
        raise AnswerError(f"the table of mounts, {proc}/self/mountinfo, cannot be read")
    place = _found(folder, rows)
    if place is None or not place.row.may_hang:
        return None
    if place.row.kind == "autofs":
        raise _problem(folder, "is mounted on demand, and nothing is mounted there now: open it once, then ask again")
    return _mount(place, share_of(place.row, place.path), proc)


def _found(folder: str, rows: Sequence[MountRow]) -> _Place | None:
    """Where a folder lies: each part is looked at only while the mount that holds it is this machine's own."""
    parts = _absolute(folder).split("/")[::-1]
    path, links = "", 0
    while parts:
        part = parts.pop()
        if part in ("", "."):
            continue
        if part == "..":
            path = path.rpartition("/")[0]
            continue
        deeper = f"{path}/{part}"
        row = holding(rows, deeper)
        target = _target(folder, deeper, more=bool(parts)) if row is not None and not row.may_hang else None
        if target is None:
            path = deeper
            continue
        links += 1
        if links > LINKS_AT_MOST:
            raise _problem(folder, "its links lead in a circle: give the folder that is meant itself")
        path = "" if target.startswith("/") else path
        parts += target.split("/")[::-1]
    row = holding(rows, path or "/")
    return None if row is None else _Place(row, path or "/")


def _absolute(folder: str) -> str:
    """A path from the root; nothing here asks a file system, the kernel's own memory of where one stands included."""
    if not folder or "\0" in folder:
        raise _problem(folder, "is no path of a folder: give one on the mounted share")
    path = os.path.expanduser(folder) if folder == "~" or folder.startswith("~/") else folder
    if path.startswith("/"):
        return path
    try:
        return f"{os.getcwd()}/{path}"
    except OSError as error:
        raise _problem(folder, "the folder that you stand in is gone: give the whole path, from / on") from error


def _target(folder: str, path: str, *, more: bool) -> str | None:
    """What a link points at; None of a folder or file."""
    try:
        mode = os.lstat(path).st_mode
        if stat.S_ISLNK(mode):
            return os.readlink(path)
    except PermissionError as error:
        raise _problem(folder, f"{path} may not be looked into: ask as the user who mounted it") from error
    except OSError as error:
        text = f"there is no {path} ({error.strerror}): check the spelling, and whether the share is mounted"
        raise _problem(folder, text) from error
    if more and not stat.S_ISDIR(mode):
        raise _problem(folder, f"{path} is no folder: check the spelling")
    return None


def _mount(place: _Place, share: Share, proc: Path) -> Mount:
    row = place.row
    daemons = fuse_daemons(row.device, proc) if row.kind.startswith("fuse") else ()
    living = _living(row, share, daemons, proc)
    return Mount(
        folder=row.folder,
        kind=row.kind,
        source=row.source,
        host=share.host,
        share=share.share,
        remote=share.remote or (living.remote.address if living else None),
        local=living.local.address if living else None,
        port=living.remote.port if living else share.port,
        process=daemons[0] if daemons else None,
        options=row.options,
    )


def _living(row: MountRow, share: Share, daemons: Sequence[int], proc: Path) -> Connection | None:
    """The connection that carries a file system in user space, where it is plain which one that is."""
    carriers = [*daemons, *(ssh_of(row.source, proc) if row.kind == "fuse.sshfs" else ())]
    named = address_of(share.host)
    fitting = [
        each
        for carrier in carriers
        for each in connections(carrier, proc)
        if named is None or each.remote.address == named
    ]
    to_service = [each for each in fitting if each.remote.port == share.port]
    ends = {each.remote for each in to_service or fitting}
    return (to_service or fitting)[0] if len(ends) == 1 else None


def _problem(folder: str, text: str) -> InputError:
    return InputError([Problem(folder, text)])
