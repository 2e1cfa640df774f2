"""Which share holds a folder on Windows. A folder on a share is never touched, so a dead share cannot hang it."""

from __future__ import annotations

from netaudit.errors import InputError, MachineError, Problem
from netaudit.machine.parse.windows.script import answered
from netaudit.machine.parse.windows.smb import mapped
from netaudit.machine.parse.windows.unc import Share, drive_of, is_inside, is_remote, plain, share_of
from netaudit.machine.windows import queries
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import Mount

_REMEMBERED = 1201
"""Windows error of a mapped drive that is not connected now."""
_LOCAL = frozenset({50, 1200, 1203, 1222, 2250})
"""Windows errors of a path on no mapped drive (winerror.h): not supported, bad device, no network there, none at all,
not connected."""


def mount_of(ways: Ways, folder: str) -> Mount | None:
    """The share that holds a folder: its own path tells, or the drive letter's mapping; None of a local disk.

    Raises InputError where there is no such folder on a local disk, MachineError where its drive is not connected.
    """
    path = plain(folder)
    if not is_remote(path) and drive_of(path) is None:
        path = plain(ways.native.absolute(folder))
    drive = drive_of(path)
    if drive is not None:
        return _on_drive(ways, folder, path, drive)
    if is_remote(path) and is_inside(path):
        return None
    share = share_of(path) if is_remote(path) else None
    if share is None:
        raise _no_folder(folder, "is no folder on a drive and no share: write X:\\folder or \\\\host\\share")
    return _mount(share.root, share)


def _on_drive(ways: Ways, folder: str, path: str, drive: str) -> Mount | None:
    remote = _behind(ways, path, drive)
    if remote is None:
        if not ways.native.is_folder(path):
            raise _no_folder(
                folder,
                "there is no such folder; a drive that was mapped in the normal session is not seen in an elevated "
                "one: give the share's own path, \\\\host\\share",
            )
        return None
    share = share_of(plain(remote))
    if share is None:
        raise MachineError(f"drive {drive} stands for {remote!r}, which is no share")
    return _mount(drive, share)


def _behind(ways: Ways, path: str, drive: str) -> str | None:
    """The UNC path behind a drive; None of a local disk."""
    try:
        code, remote = ways.native.universal_name(path)
    except MachineError:
        return mapped(answered(ways.ask(queries.MAPPINGS), "mappings"), drive)
    if code == _REMEMBERED:
        raise MachineError(f"drive {drive} is remembered but not connected: open it once, then probe again")
    if code and code not in _LOCAL:
        raise MachineError(f"Windows cannot tell what drive {drive} stands for (Windows error {code})")
    return remote or None


def _mount(folder: str, share: Share) -> Mount:
    return Mount(folder, share.kind, share.root, share.host, share.share, port=share.port)


def _no_folder(folder: str, why: str) -> InputError:
    return InputError([Problem(folder, why)])
