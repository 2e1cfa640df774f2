"""The neighbour table: which hardware addresses the kernel holds for an address on the link.

Layouts: linux/neighbour.h.
"""

from __future__ import annotations

import socket
import struct
from typing import NamedTuple

from netaudit.machine.linux import netlink
from netaudit.machine.linux.netlink import attributes
from netaudit.model.vocabulary import Address

_GET_NEIGHBOUR = 30
_NDMSG = struct.Struct("=BxxxiHBB")
_DST, _LLADDR = 1, 2
_HELD = 0x02 | 0x04 | 0x08 | 0x10 | 0x80
"""Reachable, stale, delay, probe, permanent: not incomplete, failed, or without ARP."""


class Neighbour(NamedTuple):
    """One entry of the table."""

    link: int
    """Number of the interface."""
    octets: bytes
    """The address."""
    mac: str | None
    """None where the entry holds none, or none that may be used."""


def neighbours(address: Address) -> tuple[str, ...]:
    """Hardware addresses that the kernel holds for an address, each once; raises as netlink does."""
    family = socket.AF_INET if address.version == 4 else socket.AF_INET6
    entries = (
        parse_neighbour(message.body)
        for message in netlink.dump(netlink.ROUTE, _GET_NEIGHBOUR, _NDMSG.pack(family, 0, 0, 0, 0))
    )
    link = _link(address)
    held = (
        entry.mac
        for entry in entries
        if entry is not None and entry.octets == address.packed and link in (None, entry.link)
    )
    return tuple(dict.fromkeys(mac for mac in held if mac is not None))


def parse_neighbour(body: bytes) -> Neighbour | None:
    """One entry of a list; None where the message is cut short."""
    if len(body) < _NDMSG.size:
        return None
    _, link, state, _, _ = _NDMSG.unpack_from(body)
    values = attributes(body[_NDMSG.size :])
    octets = values.get(_LLADDR, b"")
    held = state & _HELD and len(octets) == 6
    return Neighbour(link, values.get(_DST, b""), octets.hex(":") if held else None)


def _link(address: Address) -> int | None:
    """The number of the interface that an address of one link names."""
    scope = None if address.version == 4 else address.scope_id
    if scope is None:
        return None
    try:
        return int(scope) if scope.isdecimal() else socket.if_nametoindex(scope)
    except OSError:
        return None
