"""What a virtual port lets itself be told about its link: agreed rate, and whether it hands over packets uncut.

The requests are those of linux/ethtool.h, sent by the SIOCETHTOOL call of linux/sockios.h.
"""

from __future__ import annotations

import fcntl
import socket
import struct
from array import array

SIOCETHTOOL = 0x8946
SETTINGS = struct.Struct("=IIB6xb32x")
"""struct ethtool_link_settings: the command, speed [Mb/s], duplex, and how many words each mask of link modes has."""
GET_SETTINGS, SET_SETTINGS = 0x4C, 0x4D
SEGMENTS = (0x1F, 0x24, 0x2C)
"""ETHTOOL_STSO, ETHTOOL_SGSO and ETHTOOL_SGRO: whether packets longer than the wire's may reach and leave a driver."""


def agree(interface: str, rate_mbit_per_s: int, full_duplex: bool = True) -> None:
    """Let a TAP say that it agreed on a rate with the other end."""
    words = -SETTINGS.unpack(_ask(interface, SETTINGS.pack(GET_SETTINGS, 0, 0, 0)))[3]
    no_modes = bytes(3 * 4 * words)
    _ask(interface, SETTINGS.pack(SET_SETTINGS, rate_mbit_per_s, full_duplex, words) + no_modes)


def cut_at_the_source(interface: str) -> None:
    """Let a port send only packets that fit the wire, as real cables show them: no segments cut later by the driver."""
    for command in SEGMENTS:
        _ask(interface, struct.pack("=II", command, 0))


def _ask(interface: str, request: bytes) -> bytes:
    """The kernel's answer to a request about an interface of this namespace."""
    words = array("B", request)
    address, _ = words.buffer_info()
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asker:
        fcntl.ioctl(asker, SIOCETHTOOL, struct.pack("16sP", interface.encode(), address) + bytes(16))
    return words.tobytes()
