r"""Paths of Windows that lead to another machine: `\\host\share\folder`, and what else begins with two strokes."""

from __future__ import annotations

import re
from typing import NamedTuple

from netaudit.machine.parse.literals import address_of

_LITERAL = ".ipv6-literal.net"
"""What stands behind an IPv6 address in a UNC path, its colons written as strokes (UNC, Windows documentation)."""
_INSIDE = frozenset({"wsl$", "wsl.localhost", ".", "?"})
"""Names in the place of a host that mean this machine itself: its Linux, its devices."""
_REMOTE_DESKTOP = "tsclient"
_OVER_SSH = frozenset({"sshfs", "sshfs.r", "sshfs.k", "sshfs.kr"})
"""Names in the place of a host that mean: over SSH, to the host that stands in the share (from memory)."""


class Share(NamedTuple):
    """A share as a path names it."""

    root: str
    r"""`\\host\share`, as the path has it."""
    kind: str
    host: str | None
    share: str
    port: int | None = None


def plain(path: str) -> str:
    r"""A path with Windows' own strokes, its long form `\\?\` taken off."""
    turned = path.replace("/", "\\")
    if turned[:8].upper() == "\\\\?\\UNC\\":
        return "\\\\" + turned[8:]
    return turned[4:] if turned.startswith("\\\\?\\") else turned


def drive_of(path: str) -> str | None:
    """The drive that a plain path begins with, as `X:`; None of any other path."""
    return path[:2].upper() if re.match(r"[A-Za-z]:\\", path) else None


def is_remote(path: str) -> bool:
    """Whether a plain path begins with a host."""
    return path.startswith("\\\\")


def is_inside(path: str) -> bool:
    """Whether the host of a remote path is this machine itself."""
    return path[2:].partition("\\")[0].casefold() in _INSIDE


def share_of(path: str) -> Share | None:
    """The share that a plain remote path lies on; None where it names no share."""
    host, _, rest = path[2:].partition("\\")
    share = rest.partition("\\")[0]
    if not host or not share:
        return None
    root = f"\\\\{host}\\{share}"
    if host.casefold() == _REMOTE_DESKTOP:
        return Share(root, "remote desktop", None, share)
    if host.casefold() in _OVER_SSH:
        return _over_ssh(root, share)
    if "@" in host or share.casefold() == "davwwwroot":
        return _over_web(root, host, share)
    return Share(root, "smb", _host(host), share)


def _host(name: str) -> str:
    """A host's name, or the address that it spells: `fd00--10s7.ipv6-literal.net`."""
    if not name.casefold().endswith(_LITERAL):
        return name
    spelt = name[: -len(_LITERAL)].casefold()
    address = address_of(re.sub("s([0-9]+)$", r"%\1", spelt).replace("-", ":"))
    return name if address is None else str(address)


def _over_ssh(root: str, share: str) -> Share:
    """`user@host!port`, a local user before it."""
    found = re.fullmatch(r"(?:[^=]*=)?(?:[^@]*@)?([^@!]+)(?:!([0-9]{1,5}))?", share)
    if found is None:
        return Share(root, "sshfs", None, share)
    return Share(root, "sshfs", found[1], share, int(found[2] or 22))


def _over_web(root: str, host: str, share: str) -> Share:
    """`host@SSL@port`, as the WebDAV client writes it; its usual ports are those of the web."""
    name, *rest = host.split("@")
    ports = [int(part) for part in rest if re.fullmatch("[0-9]{1,5}", part)]
    secure = any(part.casefold() == "ssl" for part in rest)
    return Share(root, "webdav", _host(name) or None, share, ports[0] if ports else 443 if secure else 80)
