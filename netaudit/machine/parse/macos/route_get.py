"""`route -n get`: where a new, unbound connection would go. The line `interface:` decides, never the exit code.

Format: Apple, network_cmds, route.tproj/route.c.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from ipaddress import ip_network
from itertools import pairwise
from typing import NamedTuple

from netaudit.machine.parse.literals import address_of, without_zone
from netaudit.machine.parse.macos.words import whole
from netaudit.model.vocabulary import Address, Subnet

_LINE = re.compile(r"\s*([a-z ]{1,12}): (.*)")
_REFUSAL = re.compile(r"route: (?:writing to routing socket: |message indicates error \d+: |)(.*)")
_MTU_COLUMN = 6


class RouteGet(NamedTuple):
    """The kernel's answer to one look-up."""

    interface: str
    destination: Subnet | None
    """The route that was matched; one address alone where it was cloned for a single host."""
    gateway: Address | None
    mtu: int | None
    """Largest packet that the kernel knows to pass on it [octets]."""
    flags: frozenset[str]

    @property
    def local(self) -> bool:
        """Whether it stays in this machine."""
        return "LOCAL" in self.flags or self.interface == "lo0"

    @property
    def cloned(self) -> bool:
        """Whether it was made for one host out of a network's route: it looks scoped, and hides that network."""
        return "WASCLONED" in self.flags


def parse_route_get(text: str, asked: Address) -> RouteGet | None:
    """The route of an address; None where there is none, though the command ends with 0."""
    fields = {found[1].strip(): found[2].strip() for found in map(_LINE.fullmatch, text.splitlines()) if found}
    interface = fields.get("interface", "")
    if not interface or " " in interface:
        return None
    flags = frozenset(fields.get("flags", "").strip("<>").split(","))
    gateway = address_of(fields.get("gateway", ""))
    return RouteGet(interface, _destination(fields, flags, asked), gateway, _mtu(text), flags)


def refusal(errors: str) -> str:
    """Why there is no route, in the system's words."""
    found = _REFUSAL.search(errors)
    words = found[1].strip() if found else ""
    return "no route to that address is in the table" if words in ("", "not in table") else words


def _destination(fields: Mapping[str, str], flags: frozenset[str], asked: Address) -> Subnet | None:
    destination, mask = fields.get("destination", ""), fields.get("mask")
    if destination == "default":
        return ip_network("0.0.0.0/0" if asked.version == 4 else "::/0")
    address = address_of(destination)
    length = _length(mask, asked) if mask is not None else asked.max_prefixlen if "HOST" in flags else None
    if address is None or length is None or address.version != asked.version:
        return None
    return ip_network(f"{without_zone(address)}/{length}", strict=False)


def _length(mask: str, asked: Address) -> int | None:
    """Length of a prefix from its mask, which is written as an address."""
    if mask == "default":
        return 0
    address = address_of(mask)
    if address is None or address.version != asked.version:
        return None
    bits = f"{int(address):0{asked.max_prefixlen}b}".rstrip("0")
    return len(bits) if "0" not in bits else None


def _mtu(text: str) -> int | None:
    """The seventh number of the line of metrics; a locked one bears an L."""
    lines = text.splitlines()
    for above, below in pairwise(lines):
        if above.split()[:1] == ["recvpipe"]:
            numbers = [whole(word.rstrip("L")) for word in below.split()]
            return (numbers[_MTU_COLUMN] or None) if len(numbers) > _MTU_COLUMN else None
    return None
