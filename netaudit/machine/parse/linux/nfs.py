"""The NFS client of Linux: its transports in sysfs, its mounts in mountstats, its servers in nfsfs."""

from __future__ import annotations

from collections.abc import Mapping
from ipaddress import IPv4Address, IPv6Address
from typing import NamedTuple

from netaudit.machine.parse.literals import address_of
from netaudit.model.vocabulary import Address

TRANSPORTS = frozenset({"tcp", "udp", "rdma", "local", "tcp-tls"})


class Transport(NamedTuple):
    """One connection of the client."""

    remote: Address | None
    local: Address | None
    """None while it rests: the kernel closes a connection that nobody uses."""
    remote_port: int | None
    local_port: int | None
    connected: bool | None


class MountTransport(NamedTuple):
    """A connection of one mount, as mountstats shows it."""

    kind: str
    local_port: int | None


class NfsServer(NamedTuple):
    """A server that the client knows."""

    address: Address
    port: int
    host: str


def transport(texts: Mapping[str, str]) -> Transport:
    """A transport by the texts of its folder in sysfs, net/sunrpc/sysfs.c; each may end in NUL, or be missing."""
    info = dict(line.split("=", 1) for line in _plain(texts.get("xprt_info", "")).split("\n") if "=" in line)
    state = _plain(texts.get("xprt_state", "")).partition("=")[2].split()
    return Transport(
        remote=address_of(_plain(texts.get("dstaddr", ""))),
        local=address_of(_plain(texts.get("srcaddr", ""))),
        remote_port=_number(info.get("dst_port")),
        local_port=_number(info.get("src_port")),
        connected="CONNECTED" in state if state else None,
    )


def mount_transports(text: str, folder: str) -> tuple[MountTransport, ...]:
    """The transports of one mount in /proc/self/mountstats, a line for each connection."""
    found: list[MountTransport] = []
    inside = False
    for line in text.split("\n"):
        if line.startswith("device "):
            inside = f" mounted on {folder} with fstype nfs" in line
        words = line.split()
        if inside and words[:1] == ["xprt:"] and len(words) > 2 and words[1] in TRANSPORTS:
            found.append(MountTransport(words[1], _number(words[2]) if words[1] in ("tcp", "udp") else None))
    return tuple(found)


def nfs_servers(text: str) -> tuple[NfsServer, ...]:
    """The servers in /proc/fs/nfsfs/servers: address and port are hexadecimal, in the order of the network."""
    rows = (_server(line.split()) for line in text.split("\n"))
    return tuple(row for row in rows if row is not None)


def _server(fields: list[str]) -> NfsServer | None:
    if len(fields) < 5 or not fields[0].startswith("v"):
        return None
    try:
        raw, port = bytes.fromhex(fields[1]), int(fields[2], 16)
        address = IPv4Address(raw) if len(raw) == 4 else IPv6Address(raw)
    except ValueError:
        return None
    return NfsServer(address, port, fields[4]) if 0 < port < 65_536 else None


def _plain(text: str) -> str:
    return text.strip("\0\n ")


def _number(text: str | None) -> int | None:
    """A port; None where it is not set, which is shown as 0."""
    known = text is not None and text.isascii() and text.isdecimal() and len(text) <= 5
    return int(text) or None if known and text is not None and int(text) < 65_536 else None
