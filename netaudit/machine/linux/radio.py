"""The kernel's radio: which interfaces are wireless, and at which rate one sends at the moment.

Asked over nl80211, which needs no privilege. The family is looked up in the list of all: a question for its name would
make the kernel load a module where it has none. Layouts: linux/genetlink.h, linux/nl80211.h.
"""

from __future__ import annotations

import struct
from collections.abc import Iterable

from netaudit.errors import MachineError
from netaudit.machine.linux import netlink
from netaudit.machine.linux.netlink import Message, attributes, number, number_attribute, text

_HEADER = struct.Struct("=BBxx")
_CONTROL, _GET_FAMILY = 16, 3
_FAMILY_ID, _FAMILY_NAME = 1, 2
_GET_INTERFACE, _GET_STATION = 5, 17
_IFINDEX, _STATION_INFO = 3, 21
_TX_BITRATE = 8
_BITRATE, _BITRATE32 = 1, 5
_UNIT_BIT_PER_S = 100_000


def radio_links() -> frozenset[int]:
    """The numbers of the wireless interfaces; none where the kernel does not know the question."""
    try:
        family = _family()
        return parse_links(_dump(family, _GET_INTERFACE, b"")) if family else frozenset()
    except MachineError:
        return frozenset()


def rate_bit_per_s(link: int) -> int | None:
    """The rate at which a wireless interface sends to its access point [bit/s]; None where there is none."""
    try:
        family = _family()
        stations = _dump(family, _GET_STATION, number_attribute(_IFINDEX, link)) if family else ()
    except MachineError:
        return None
    rates = [parse_rate_bit_per_s(message.body) for message in stations]
    return rates[0] if len(rates) == 1 else None


def parse_family(answers: Iterable[Message], name: str) -> int | None:
    """The number of a family in the list of all; None where the kernel has none of that name."""
    for message in answers:
        values = attributes(message.body[_HEADER.size :])
        if text(values.get(_FAMILY_NAME)) == name:
            return number(values.get(_FAMILY_ID))
    return None


def parse_links(answers: Iterable[Message]) -> frozenset[int]:
    """The numbers of interfaces in a list of them."""
    found = (number(attributes(message.body[_HEADER.size :]).get(_IFINDEX)) for message in answers)
    return frozenset(index for index in found if index)


def parse_rate_bit_per_s(body: bytes) -> int | None:
    """The rate at which one station is sent to [bit/s]; the shorter number stands for slow radios only."""
    values = attributes(body[_HEADER.size :])
    sending = attributes(attributes(values.get(_STATION_INFO, b"")).get(_TX_BITRATE, b""))
    units = number(sending.get(_BITRATE32)) or number(sending.get(_BITRATE))
    return units * _UNIT_BIT_PER_S if units else None


def _family() -> int | None:
    return parse_family(_dump(_CONTROL, _GET_FAMILY, b""), "nl80211")


def _dump(family: int, command: int, body: bytes) -> tuple[Message, ...]:
    return netlink.dump(netlink.GENERIC, family, _HEADER.pack(command, 1) + body)
