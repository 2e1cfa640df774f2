"""What the network told about a packet that was sent: Linux keeps ICMP errors in a queue of the socket.

Source: linux/errqueue.h, ip(7) IP_RECVERR, ipv6(7) IPV6_RECVERR.
"""

from __future__ import annotations

import ipaddress
import socket
import struct
from collections.abc import Iterable
from typing import NamedTuple

from netaudit.model.vocabulary import Address

IP_RECVERR, IPV6_RECVERR = 11, 25
MSG_ERRQUEUE = 0x2000
LOCAL, ICMP, ICMP6 = 1, 2, 3
EXTENDED_ERROR = struct.Struct("@IBBBBII")
"""struct sock_extended_err: number, origin, type, code, pad, info, data."""
MOST_BYTES = 65_535


class Told(NamedTuple):
    """One error about a packet of a socket."""

    number: int
    """The system's number of the error."""
    origin: int
    """LOCAL: this machine itself; ICMP, ICMP6: somebody on the way."""
    kind: int
    """The ICMP type."""
    code: int
    """The ICMP code."""
    info: int
    """Of a packet that is too large, the size that would pass [octets]."""
    offender: Address | None
    """Who sent it."""
    packet: bytes
    """What came back of the packet, after its IP header."""


def keep_errors(sock: socket.socket) -> None:
    """Have the system keep what the network tells about the packets of a socket."""
    if sock.family == socket.AF_INET6:
        sock.setsockopt(socket.IPPROTO_IPV6, IPV6_RECVERR, 1)
    else:
        sock.setsockopt(socket.IPPROTO_IP, IP_RECVERR, 1)


def next_error(sock: socket.socket) -> Told | None:
    """The oldest error in the queue, without waiting; None where it holds none, or none that can be read."""
    try:
        packet, ancillary, _, _ = sock.recvmsg(MOST_BYTES, 512, MSG_ERRQUEUE | socket.MSG_DONTWAIT)
    except OSError:
        return None
    return told(packet, ancillary)


def told(packet: bytes, ancillary: Iterable[tuple[int, int, bytes]]) -> Told | None:
    """The error that stands in the ancillary data of a message; None where none can be read."""
    for level, kind, data in ancillary:
        if (level, kind) not in ((socket.IPPROTO_IP, IP_RECVERR), (socket.IPPROTO_IPV6, IPV6_RECVERR)):
            continue
        if len(data) < EXTENDED_ERROR.size:
            continue
        number, origin, icmp_type, code, _, info, _ = EXTENDED_ERROR.unpack_from(data)
        return Told(number, origin, icmp_type, code, info, _offender(data[EXTENDED_ERROR.size :]), packet)
    return None


def _offender(address: bytes) -> Address | None:
    """The address in a socket address of the kernel; None where it holds none."""
    if len(address) < 2:
        return None
    (family,) = struct.unpack_from("@H", address)
    if family == socket.AF_INET and len(address) >= 8:
        return ipaddress.IPv4Address(address[4:8])
    if family == socket.AF_INET6 and len(address) >= 24:
        return ipaddress.IPv6Address(address[8:24])
    return None
