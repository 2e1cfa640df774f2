"""Mounts of Linux: the lines of mountinfo, which one holds a path, and the storage that its source names."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence, Set
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

from netaudit.machine.parse.literals import address_of
from netaudit.model.services import NFS, SMB, SSH
from netaudit.model.vocabulary import Address

SMB_KINDS = frozenset({"cifs", "smb3", "smbfs", "fuse.cifs"})
NFS_KINDS = frozenset({"nfs", "nfs4"})
REMOTE_KINDS = (
    SMB_KINDS
    | NFS_KINDS
    | frozenset({"9p", "afs", "autofs", "beegfs", "ceph", "coda", "davfs", "fuse", "glusterfs", "gpfs", "lustre"})
    | frozenset({"ncpfs", "orangefs", "virtiofs"})
)
"""Kinds that may hang when they are touched, besides every `fuse.…`: common practice, no source."""
LOCAL_FUSE = frozenset({"fuse.lxcfs", "fuse.portal", "fuse.ntfs-3g", "fuse.squashfuse", "fuse.snapfuse"})
"""File systems in user space that only ever show this machine's own disks: common practice, no source."""
DEFAULT_WORKGROUPS = frozenset({"WORKGROUP", "MSHOME"})
"""Names that a workgroup has where nobody gave it one: workgroup in smb.conf(5); MSHOME from memory."""

_ESCAPED = re.compile(rb"\\([0-3][0-7]{2})")
_SSH_SOURCE = re.compile(r"(?:[^:/]*@)?(?P<host>\[[^\]]*\]|[^:/\[\]]*):(?P<path>.*)", re.DOTALL)
_GVFS = re.compile(r"(?P<kind>smb-share|sftp|nfs|davs?|ftps?):(?P<fields>.*)")


class MountRow(NamedTuple):
    """One line of mountinfo."""

    number: int
    parent: int
    device: tuple[int, int]
    """Major and minor number."""
    folder: str
    kind: str
    source: str
    options: tuple[str, ...]
    """Those of the mount, then those of the file system."""

    def option(self, name: str) -> str | None:
        """The value of the first option of that name; empty where it has none; None where it is not set."""
        found = (each.partition("=")[2] for each in self.options if each.partition("=")[0] == name)
        return next(found, None)

    @property
    def may_hang(self) -> bool:
        """Whether touching a path on it may wait for another machine."""
        if self.kind in LOCAL_FUSE:
            return False
        return self.kind in REMOTE_KINDS or self.kind.startswith("fuse.") or self.source.startswith("//")


class Share(NamedTuple):
    """The storage behind a mount, as far as its source and options tell."""

    host: str | None = None
    share: str | None = None
    remote: Address | None = None
    port: int | None = None


def mount_rows(text: str) -> tuple[MountRow, ...]:
    """The lines of mountinfo, proc_pid_mountinfo(5); a line that cannot be read is left out."""
    rows = (_row(line) for line in text.split("\n"))
    return tuple(row for row in rows if row is not None)


def holding(rows: Sequence[MountRow], path: str) -> MountRow | None:
    """The mount that holds an absolute path without `.`, `..` and links; None where the table does not reach it.

    A mount covers what is mounted beneath it: each step goes to the mount whose parent the last one is.
    """
    numbers = {row.number for row in rows}
    passed: set[MountRow] = set()
    found: MountRow | None = None
    for folder in _prefixes(path):
        beside = [row for row in rows if row.folder == folder]
        while above := [row for row in beside if row not in passed and _lies_on(row, found, numbers)]:
            passed.update(above)
            found = above[-1]
    return found


def share_of(row: MountRow, path: str) -> Share:
    """The storage that a mount names, or that the path below it names; unknown parts are None."""
    below = tuple(part for part in path[len(row.folder) :].split("/") if part)
    if row.kind in SMB_KINDS or row.source.startswith(("//", "\\\\")):
        return _smb(row)
    if row.kind in NFS_KINDS:
        return _nfs(row)
    if row.kind == "fuse.sshfs":
        return _sshfs(row)
    if row.kind == "fuse.smbnetfs" or row.source == "smbnetfs":
        return _smbnetfs(below)
    if row.kind == "fuse.gvfsd-fuse":
        return _gvfs(below)
    if "://" in row.source:
        return _url(row)
    return Share()


def _row(line: str) -> MountRow | None:
    head, separator, tail = line.partition(" - ")
    fields, rest = head.split(" "), tail.split(" ")
    if not separator or len(fields) < 6 or len(rest) < 2:
        return None
    major, _, minor = fields[2].partition(":")
    if not all(each.isascii() and each.isdecimal() and len(each) <= 10 for each in (*fields[:2], major, minor)):
        return None
    return MountRow(
        number=int(fields[0]),
        parent=int(fields[1]),
        device=(int(major), int(minor)),
        folder=_unescaped(fields[4]),
        kind=_unescaped(rest[0]),
        source=_unescaped(rest[1]),
        options=tuple(_unescaped(each) for part in (fields[5], " ".join(rest[2:])) for each in part.split(",") if each),
    )


def _lies_on(row: MountRow, below: MountRow | None, numbers: Set[int]) -> bool:
    """Whether a mount lies right on another one; one whose parent is not shown lies on whatever is there."""
    if row.parent == row.number or row.parent not in numbers:
        return True
    return below is not None and row.parent == below.number


def _unescaped(text: str) -> str:
    """A field whose blanks, tabs, line ends and backslashes are written as octal numbers."""
    if "\\" not in text:
        return text
    raw = _ESCAPED.sub(lambda match: bytes([int(match[1], 8)]), text.encode("utf-8", "surrogateescape"))
    return raw.decode("utf-8", "surrogateescape")


def _prefixes(path: str) -> Iterator[str]:
    folder = ""
    yield "/"
    for part in filter(None, path.split("/")):
        folder += f"/{part}"
        yield folder


def _smb(row: MountRow) -> Share:
    host, _, share = row.source.replace("\\", "/").strip("/").partition("/")
    return Share(_bare(host), share or None, address_of(row.option("addr")), _port(row.option("port")) or SMB)


def _nfs(row: MountRow) -> Share:
    host, separator, share = row.source.partition(":/")
    port = _port(row.option("port")) or NFS
    return Share(_bare(host) if separator else None, f"/{share}" if separator else None,
                 address_of(row.option("addr")), port)  # fmt: skip


def _sshfs(row: MountRow) -> Share:
    match = _SSH_SOURCE.fullmatch(row.source)
    return Share(_bare(match["host"]), match["path"] or None, None, SSH) if match else Share(port=SSH)


def _smbnetfs(below: Sequence[str]) -> Share:
    """The first folder is a host, or a workgroup above its hosts: smbnetfs(1)."""
    parts = below[1:] if below and below[0].upper() in DEFAULT_WORKGROUPS else below
    return Share(parts[0] if parts else None, parts[1] if len(parts) > 1 else None, None, SMB)


def _gvfs(below: Sequence[str]) -> Share:
    """The first folder is the share's own name, `smb-share:server=vault,share=media`: from memory."""
    match = _GVFS.fullmatch(below[0]) if below else None
    if match is None:
        return Share()
    fields = {key: unquote(value) for key, _, value in (each.partition("=") for each in match["fields"].split(","))}
    port = _port(fields.get("port")) or {"smb-share": SMB, "sftp": SSH, "nfs": NFS}.get(match["kind"])
    return Share(_bare(fields.get("server") or fields.get("host") or ""), fields.get("share"), None, port)


def _url(row: MountRow) -> Share:
    try:
        parts = urlsplit(row.source)
        port = parts.port or {"http": 80, "https": 443, "ftp": 21, "sftp": SSH, "smb": SMB}.get(parts.scheme)
        return Share(_bare(parts.hostname or ""), parts.path.strip("/") or None, None, port)
    except ValueError:
        return Share()


def _bare(host: str) -> str | None:
    return host.strip("[]") or None


def _port(text: str | None) -> int | None:
    if text is None or not (text.isascii() and text.isdecimal() and len(text) <= 5):
        return None
    return int(text) if 0 < int(text) < 65_536 else None
