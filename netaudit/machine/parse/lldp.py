"""Announcements of switches by the Link Layer Discovery Protocol, read from whole Ethernet frames.

Source: IEEE 802.1AB, clause 8 (the values of each announcement), annexes D and E in the editions of 2009 and earlier,
now IEEE 802.1Q annex D and IEEE 802.3 clause 79 (port VLAN, largest frame). A frame may say anything: what does not
hold together is no announcement.
"""

from __future__ import annotations

import ipaddress
import struct
from collections.abc import Iterator
from typing import NamedTuple

from netaudit.model.observation import SwitchPort

ETHERTYPE = 0x88CC
HEADER_OCTETS = 14
END, CHASSIS, PORT, LIFE, PORT_DESCRIPTION, SYSTEM_NAME, MANAGEMENT, ORGANISATION = 0, 1, 2, 3, 4, 5, 8, 127
PORT_VLAN = bytes.fromhex("0080c2 01")
LARGEST_FRAME = bytes.fromhex("00120f 04")
"""Organisation and subtype of its own values."""
CHASSIS_MAC, CHASSIS_NETWORK_ADDRESS = 4, 5
PORT_MAC, PORT_NETWORK_ADDRESS = 3, 4
"""Subtypes of identifiers that are not text."""
NETWORK_ADDRESS_OCTETS = {1: 4, 2: 16}
"""Address families of IANA to the length of an address."""


class Value(NamedTuple):
    """One value of an announcement."""

    kind: int
    octets: bytes


def switch_port(frame: bytes, interface: str) -> SwitchPort | None:
    """What a frame announces of the switch port that an interface is plugged into; None where it is no announcement.

    A switch that takes its announcement back, with no time to live, announces nothing.
    """
    values = list(_values(frame))
    if [value.kind for value in values[:3]] != [CHASSIS, PORT, LIFE]:
        return None
    chassis, port, life = (value.octets for value in values[:3])
    if len(life) < 2 or not any(life[:2]):
        return None
    first = {value.kind: value.octets for value in reversed(values) if value.kind != ORGANISATION}
    own = {value.octets[:4]: value.octets[4:] for value in reversed(values) if value.kind == ORGANISATION}
    return SwitchPort(
        interface,
        switch=_text(first.get(SYSTEM_NAME, b""))
        or _management_address(first.get(MANAGEMENT, b""))
        or _identifier(chassis, CHASSIS_MAC, CHASSIS_NETWORK_ADDRESS),
        port=_identifier(port, PORT_MAC, PORT_NETWORK_ADDRESS),
        description=_text(first.get(PORT_DESCRIPTION, b"")),
        mtu=_number(own.get(LARGEST_FRAME, b"")),
        vlan=_number(own.get(PORT_VLAN, b"")),
    )


def sender(frame: bytes) -> str | None:
    """The hardware address that a frame comes from."""
    return _mac(frame[6:12])


def _values(frame: bytes) -> Iterator[Value]:
    """The values of an announcement in their order, up to its end or to the first that is cut short."""
    if int.from_bytes(frame[12:HEADER_OCTETS], "big") != ETHERTYPE:
        return
    place = HEADER_OCTETS
    while place + 2 <= len(frame):
        (header,) = struct.unpack_from("!H", frame, place)
        kind, octets = header >> 9, frame[place + 2 : place + 2 + (header & 0x1FF)]
        if kind == END or len(octets) < header & 0x1FF:
            return
        yield Value(kind, octets)
        place += 2 + len(octets)


def _identifier(octets: bytes, mac: int, network_address: int) -> str | None:
    """A chassis or port identifier in words, by its subtype."""
    subtype, rest = octets[:1], octets[1:]
    if subtype == bytes((mac,)):
        return _mac(rest)
    if subtype == bytes((network_address,)):
        return _network_address(rest)
    return _text(rest)


def _management_address(octets: bytes) -> str | None:
    """The address at which a switch is managed: its length, which counts the family, then family and address."""
    return _network_address(octets[1 : 1 + octets[0]]) if octets else None


def _network_address(octets: bytes) -> str | None:
    family, address = octets[:1], octets[1:]
    if family and NETWORK_ADDRESS_OCTETS.get(family[0]) == len(address):
        return str(ipaddress.ip_address(address))
    return None


def _mac(octets: bytes) -> str | None:
    return octets.hex(":") if len(octets) == 6 else None


def _text(octets: bytes) -> str | None:
    """A name that can be shown: what is no printable character is left out; None where nothing is left."""
    shown = "".join(char for char in octets.decode("utf-8", "replace") if char.isprintable())
    return shown.strip() or None


def _number(octets: bytes) -> int | None:
    """A number of two octets; 0 means that the switch does not tell."""
    return struct.unpack_from("!H", octets)[0] or None if len(octets) >= 2 else None
