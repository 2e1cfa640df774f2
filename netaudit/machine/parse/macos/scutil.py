"""`scutil`: which interface the system prefers and how it came to that, and what its store holds.

Format: Apple, configd, nwi and scutil.tproj.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.macos.words import whole
from netaudit.model.vocabulary import Address

_FAMILY = re.compile(r"IPv([46]) network interface information")
_ENTRY = re.compile(r" +(\S+) : flags +: 0x[0-9a-f]+ ?(?:\((.*)\))?")
_ADDRESS = re.compile(r" +address +: (\S+)")
_RANK = re.compile(r" +rank +: 0x[0-9a-f]+ \((\w+), (\d+)\)")
_PAIR = re.compile(r"  (\S+) : (.*)")
_BEHIND = frozenset({"Last", "Never", "Scoped"})


class Ranked(NamedTuple):
    """An interface in the order that the system really prefers, the first being the primary one."""

    interface: str
    version: int
    """4 or 6: the IP family that this order is of."""
    address: Address | None = None
    assertion: str | None = None
    """First, Default, Last, Never or Scoped; told by `-d` only."""
    place: int | None = None
    """Its place in the order of services; told by `-d` only."""

    @property
    def last(self) -> bool | None:
        """Whether it ranks behind all others, whatever order was set, as a service without a router does."""
        return None if self.assertion is None else self.assertion in _BEHIND


def parse_nwi(text: str) -> tuple[Ranked, ...]:
    """Interfaces of `scutil --nwi` or `scutil -d --nwi`, IPv4 first; none where it has no network information."""
    found: list[Ranked] = []
    version = 4
    for line in text.splitlines():
        family, entry = _FAMILY.match(line), _ENTRY.fullmatch(line)
        if family:
            version = int(family[1])
        elif entry:
            found.append(Ranked(entry[1], version))
        elif found:
            found[-1] = _with(found[-1], line)
    return tuple(found)


def parse_show(text: str) -> Mapping[str, str]:
    """The plain values of a dictionary that `show KEY` prints; none where there is no such key."""
    return dict(_pairs(text))


def _with(entry: Ranked, line: str) -> Ranked:
    address, rank = _ADDRESS.match(line), _RANK.match(line)
    if address:
        return entry._replace(address=address_of(address[1]))
    if rank:
        return entry._replace(assertion=rank[1], place=whole(rank[2]))
    return entry


def _pairs(text: str) -> Iterator[tuple[str, str]]:
    for pair in map(_PAIR.fullmatch, text.splitlines()):
        if pair and not pair[2].startswith("<"):
            yield pair[1], pair[2].strip()
