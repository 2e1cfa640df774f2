"""What an interface's driver says of its link: agreed rate and duplex, the rates of both ends, the driver's name.

Every question is an ioctl that needs no privilege. Layouts: `struct ethtool_link_settings` and `struct ethtool_drvinfo`
of linux/ethtool.h.
"""

from __future__ import annotations

import fcntl
import socket
import struct
import sys
from array import array
from collections.abc import Callable
from typing import NamedTuple

from netaudit.model.machine_state import Duplex

_SIOCETHTOOL = 0x8946
_LINK_SETTINGS, _DRIVER = 0x4C, 0x03
_SETTINGS = struct.Struct("=IIBBBBBBBbBBBB28x")
_DRIVER_BYTES = 196
_NAME_AT, _DEVICE_AT, _TEXT_BYTES = 4, 100, 32
_DUPLEX: dict[int, Duplex] = {0: "half", 1: "full"}
_UNKNOWN_SPEEDS = (0, 0xFFFFFFFF, 0xFFFF)
"""None agreed, and the two ways to say that it is not known."""


class LinkSettings(NamedTuple):
    """What is agreed on a link, and what could be."""

    rate_bit_per_s: int | None = None
    """Agreed rate [bit/s]."""
    duplex: Duplex | None = None
    supported: int | None = None
    """Link modes of this end by their numbers, one bit each."""
    offered: int | None = None
    """Link modes that this end offers."""
    partner: int | None = None
    """Link modes that the other end offers; None where the driver does not tell."""


class Driver(NamedTuple):
    """The driver behind an interface."""

    name: str | None = None
    device: str | None = None
    """Its device on a bus, such as `0000:03:00.0`; None for an interface that is only software."""


Ask = Callable[[str, bytes], bytes]
"""Hand a question about an interface to the kernel; gives what it wrote over it, raises OSError."""


def link_settings(interface: str, ask: Ask | None = None) -> LinkSettings:
    """What is agreed on a link; nothing where the driver does not tell."""
    ask = ask or _ask
    try:
        words = -parse_words(ask(interface, _question(0)))
        return parse_settings(ask(interface, _question(words))) if words > 0 else LinkSettings()
    except OSError:
        return LinkSettings()


def driver(interface: str, ask: Ask | None = None) -> Driver:
    """An interface's driver and device; nothing where it has none."""
    try:
        return parse_driver((ask or _ask)(interface, struct.pack("=I", _DRIVER).ljust(_DRIVER_BYTES, b"\0")))
    except OSError:
        return Driver()


def parse_driver(answer: bytes) -> Driver:
    """The driver in an answer; what is cut off is not known."""
    name, device = (answer[at : at + _TEXT_BYTES].partition(b"\0")[0] for at in (_NAME_AT, _DEVICE_AT))
    return Driver(name.decode("utf-8", "replace") or None, device.decode("utf-8", "replace") or None)


def parse_words(answer: bytes) -> int:
    """How many words a set of link modes has: negative where the kernel only tells it, 0 where it does not."""
    return int(_SETTINGS.unpack_from(answer)[9]) if len(answer) >= _SETTINGS.size else 0


def parse_settings(answer: bytes) -> LinkSettings:
    """The settings in an answer; nothing where it is cut short."""
    if len(answer) < _SETTINGS.size:
        return LinkSettings()
    fields = _SETTINGS.unpack_from(answer)
    speed_mbit_per_s, duplex, words = fields[1], fields[2], fields[9]
    supported, offered, partner = (_modes(answer, index, words) for index in range(3))
    return LinkSettings(
        None if speed_mbit_per_s in _UNKNOWN_SPEEDS else speed_mbit_per_s * 1_000_000,
        _DUPLEX.get(duplex),
        supported,
        offered,
        partner,
    )


def _modes(answer: bytes, index: int, words: int) -> int | None:
    """One set of link modes; None where it is empty or cut off."""
    start = _SETTINGS.size + index * words * 4
    piece = answer[start : start + words * 4] if words > 0 else b""
    return (int.from_bytes(piece, sys.byteorder) or None) if len(piece) == words * 4 else None


def _question(words: int) -> bytes:
    return _SETTINGS.pack(_LINK_SETTINGS, 0, 0, 0, 0, 0, 0, 0, 0, words, 0, 0, 0, 0) + bytes(3 * 4 * words)


def _ask(interface: str, question: bytes) -> bytes:
    buffer = array("B", question)
    request = struct.pack("16sP16x", interface.encode()[:15], buffer.buffer_info()[0])
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as door:
        fcntl.ioctl(door, _SIOCETHTOOL, request)
    return buffer.tobytes()
