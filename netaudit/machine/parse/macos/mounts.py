"""`mount` and `nfsstat -m`: which share lies where, told without touching it.

Formats: Apple, diskdev_cmds, mount.tproj/mount.c; SMBClient, smbfs's name of a mount; NFS, nfsstat/main.c.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple
from urllib.parse import unquote

from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.macos.words import whole
from netaudit.model.machine_state import Mount
from netaudit.model.services import NFS, SMB, SSH
from netaudit.model.vocabulary import Address

_URL = re.compile(r"//(?:[^/]*@)?(?P<host>\[[^\]]*\]|[^/:]*)(?::(?P<port>\d{1,5}))?(?P<path>/.*)?")
_WEB = re.compile(r"(?P<scheme>https?):(?P<rest>//.*)")
_EXPORT = re.compile(r"(?P<host>.+?):(?P<path>/.*)")
_LOGIN = re.compile(r"(?:[^/@]+@)?(?P<host>\[[^\]]*\]|[^/:@]+):(?P<path>.*)")
_INSTANCE = re.compile(r"(?P<name>.+)\.(?P<service>_[a-z0-9-]+\._tcp)\.(?P<domain>[^/]+?)\.?")
_PORTS = {"smbfs": SMB, "nfs": NFS, "afpfs": 548, "http": 80, "https": 443}
"""Ports by kind or scheme; 548 is afpovertcp in IANA's registry of service names."""
_USER_SPACE = ("macfuse", "osxfuse", "fuse")
_PARAMETERS = re.compile(r"\s+NFS parameters: (\S+)")
_LOCATION = re.compile(r"\s+/.* @ .*\(([^)]*)\)")


class Instance(NamedTuple):
    """A service that announces itself, in the place of a host: Finder mounts by it."""

    name: str
    service: str
    domain: str


class NfsMount(NamedTuple):
    """An NFS mount as it runs now."""

    addresses: tuple[Address, ...] = ()
    parameters: Mapping[str, str] = {}
    """`vers`, `sec`, `rsize` …"""


def parse_mounts(text: str) -> tuple[Mount, ...]:
    """Every mount in the system's order, those of local disks included; these have no host."""
    return tuple(mount for line in text.splitlines() if (mount := _mount(line)) is not None)


def instance_of(host: str) -> Instance | None:
    """The service instance that stands where a host should; None where it is a host."""
    found = _INSTANCE.fullmatch(host)
    return None if found is None else Instance(found["name"], found["service"], found["domain"])


def parse_nfsstat(text: str) -> Mapping[str, NfsMount]:
    """NFS mounts by folder, as `nfsstat -m` gives their current parameters, not the ones they were asked for with."""
    found: dict[str, NfsMount] = {}
    folder, current = "", False
    for line in text.splitlines():
        if line[:1].strip():
            folder, current = line.partition(" from ")[0], False
            found[folder] = NfsMount()
        elif line.strip().startswith("-- "):
            current = "Current" in line
        elif current and folder in found:
            found[folder] = _with(found[folder], line)
    return found


def _with(mount: NfsMount, line: str) -> NfsMount:
    parameters, location = _PARAMETERS.match(line), _LOCATION.match(line)
    if parameters:
        words = (word.partition("=") for word in parameters[1].split(","))
        return mount._replace(parameters={name: value for name, _, value in words})
    if location:
        listed = (address for word in location[1].split(",") if (address := address_of(word)) is not None)
        return mount._replace(addresses=tuple(dict.fromkeys((*mount.addresses, *listed))))
    return mount


def _mount(line: str) -> Mount | None:
    """A line of `mount`; neither side is escaped, so the last ` (` and ` on /` part it."""
    front, opened, inside = line.rstrip().rpartition(" (")
    source, folder = _parted(front)
    if not opened or not inside.endswith(")") or not folder:
        return None
    kind, *options = inside[:-1].split(", ")
    host, port, path = _where(source, kind)
    return Mount(
        folder=folder,
        kind=kind,
        source=source,
        host=host,
        share=path,
        port=port,
        options=tuple(options),
    )


def _parted(front: str) -> tuple[str, str]:
    """Source and folder: a URL has no spaces, so its first ` on /` parts it; elsewhere the last does."""
    part = front.partition if front.startswith("//") else front.rpartition
    source, _, folder = part(" on /")
    return source, f"/{folder}" if source else ""


def _where(source: str, kind: str) -> tuple[str | None, int | None, str | None]:
    """Host, port and share behind a source; all None for a local disk."""
    web = _WEB.fullmatch(source)
    if web or kind in ("smbfs", "afpfs"):
        url = _URL.fullmatch(web["rest"] if web else source)
        default = _PORTS[web["scheme"] if web else kind]
        return _url(url, default) if url else (None, default, None)
    if kind == "nfs":
        return _named(_EXPORT.fullmatch(source), _PORTS["nfs"])
    return _named(_LOGIN.fullmatch(source) if kind.startswith(_USER_SPACE) else None, SSH)


def _named(found: re.Match[str] | None, port: int) -> tuple[str | None, int | None, str | None]:
    if found is None:
        return None, None, None
    return found["host"].strip("[]") or None, port, found["path"] or None


def _url(url: re.Match[str], default: int) -> tuple[str | None, int | None, str | None]:
    host = unquote(url["host"]).strip("[]")
    share = unquote(url["path"] or "").strip("/")
    return host or None, whole(url["port"]) or default, share or None


def network_mounts(mounts: tuple[Mount, ...]) -> Iterator[Mount]:
    """The mounts that some other machine may stand behind."""
    return (mount for mount in mounts if mount.host is not None or mount.kind.startswith(_USER_SPACE))
