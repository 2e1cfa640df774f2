"""`arp -an` and `ndp -an`: hardware addresses that the system holds; both leave leading zeros out.

Formats: Apple, network_cmds, arp.tproj/arp.c and ndp.tproj/ndp.c.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.macos.words import mac_of
from netaudit.model.vocabulary import Address

_ARP = re.compile(r"\S+ \(([0-9.]+)\) at (\S+) on (\S+).*")


class Neighbour(NamedTuple):
    """An address on the link; the same one may stand on two interfaces."""

    address: Address
    mac: str | None
    """None where nobody has answered."""
    interface: str


def parse_arp(text: str) -> tuple[Neighbour, ...]:
    """The table of IPv4."""
    return tuple(_arp(text))


def parse_ndp(text: str) -> tuple[Neighbour, ...]:
    """The table of IPv6."""
    return tuple(_ndp(text))


def _arp(text: str) -> Iterator[Neighbour]:
    for row in map(_ARP.fullmatch, text.splitlines()):
        address = address_of(row[1]) if row else None
        if row and address is not None:
            yield Neighbour(address, mac_of(row[2]), row[3])


def _ndp(text: str) -> Iterator[Neighbour]:
    for line in text.splitlines():
        words = line.split()
        address = address_of(words[0]) if len(words) >= 3 else None
        if address is not None:
            yield Neighbour(address, mac_of(words[1]), words[2])
