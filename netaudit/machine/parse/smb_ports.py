"""The ports that an SMB server offers for further connections, as it lists them.

Source: MS-SMB2 section 2.2.32.5, NETWORK_INTERFACE_INFO Response.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from ipaddress import IPv4Address, IPv6Address

from netaudit.model.observation import Offer
from netaudit.model.vocabulary import Address

RECORD = struct.Struct("<IIIIQH126s")
"""Next, number, capabilities, reserved, link speed [bit/s], address family, the rest of the socket address."""
IPV4_FAMILY, IPV6_FAMILY = 0x0002, 0x0017
IPV4_PLACE, IPV6_PLACE = slice(2, 6), slice(6, 22)
MOST_OFFERS = 256
FASTEST_BIT_PER_S = 10_000_000_000_000
"""No port is faster: what is said beyond is not known."""


def offers(octets: bytes) -> tuple[Offer, ...]:
    """Every port of a list, in its order; records of other kinds of address, and what cannot be read, are left out."""
    return tuple(_offers(octets))


def _offers(octets: bytes) -> Iterator[Offer]:
    place = 0
    for _ in range(MOST_OFFERS):
        if len(octets) - place < RECORD.size:
            return
        following, number, _, _, speed, family, rest = RECORD.unpack_from(octets, place)
        address = _address(family, rest)
        if address is not None:
            yield Offer(address, speed if 0 < speed <= FASTEST_BIT_PER_S else None, number)
        if following < RECORD.size:
            return
        place += following


def _address(family: int, rest: bytes) -> Address | None:
    if family == IPV4_FAMILY:
        return IPv4Address(rest[IPV4_PLACE])
    if family == IPV6_FAMILY:
        return IPv6Address(rest[IPV6_PLACE])
    return None
