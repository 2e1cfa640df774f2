"""Packets of an exact size that ask for an answer: an ICMP echo, or a datagram to a port at which nobody listens.

Sources: RFC 792 (echo), RFC 4443 section 4 (echo of ICMPv6), icmp(7) on datagram sockets without privilege.
"""

from __future__ import annotations

import errno
import os
import socket
import struct
from collections.abc import Callable
from typing import NamedTuple

from netaudit.errors import PrivilegeError
from netaudit.machine.linux.error_queue import Told, keep_errors
from netaudit.machine.sockets import family, socket_address
from netaudit.model.machine_state import Endpoint
from netaudit.model.observation import FrameMethod
from netaudit.model.vocabulary import Address

IP_MTU_DISCOVER, IPV6_MTU_DISCOVER, IPV6_DONTFRAG = 10, 23, 62
PROBE = 3
"""Never cut a packet, and let no remembered path MTU hold it back: ip(7)."""
IP_HEADER_OCTETS = {4: 20, 6: 40}
ICMP_HEADER = struct.Struct("!BBHHH")
"""Type, code, checksum, identifier, sequence: as long as the header of UDP."""
ECHO, ECHO_REPLY = {4: 8, 6: 128}, {4: 0, 6: 129}
QUIET_PORT = 33434
"""Where nobody listens: the port that traceroute has always used."""


class Echo(NamedTuple):
    """A way to send packets of an exact size and to know their answers."""

    sock: socket.socket
    method: FrameMethod
    packet: Callable[[int], bytes]
    """Size of the whole IP packet [octets] to what is handed to the socket."""
    answered: Callable[[bytes, bytes], bool]
    """Whether what was received answers what was sent."""

    def tells_of(self, sent: bytes, told: Told) -> bool:
        """Whether an error is about what was sent: raw sockets hear of other programs' packets too."""
        quoted = told.packet[ICMP_HEADER.size : 2 * ICMP_HEADER.size]
        return self.method == "udp" or sent[ICMP_HEADER.size :].startswith(quoted)


def opened(address: Address) -> Echo:
    """The best way to ask an address that this user may use: the socket is connected and never cuts a packet.

    Raises PrivilegeError where the system allows none, OSError where there is no way to the address.
    """
    for kind, method in ((socket.SOCK_DGRAM, "icmp"), (socket.SOCK_RAW, "icmp"), (socket.SOCK_DGRAM, "udp")):
        protocol = _protocol(address, method)
        try:
            sock = socket.socket(family(address), kind, protocol)
        except OSError as error:
            if error.errno in (errno.EPERM, errno.EACCES, errno.EPROTONOSUPPORT, errno.ESOCKTNOSUPPORT):
                continue
            raise
        try:
            _prepare(sock, address)
        except BaseException:
            sock.close()
            raise
        return _echo(sock, address)
    raise PrivilegeError("the right to open a datagram socket")


def smallest(address: Address) -> int:
    """The size of a packet that carries nothing [octets]."""
    return IP_HEADER_OCTETS[address.version] + ICMP_HEADER.size


def _protocol(address: Address, method: str) -> int:
    if method == "udp":
        return socket.IPPROTO_UDP
    return socket.IPPROTO_ICMPV6 if address.version == 6 else socket.IPPROTO_ICMP


def _prepare(sock: socket.socket, address: Address) -> None:
    """Have it never cut a packet, keep what the network tells, and speak to this address alone."""
    if address.version == 6:
        sock.setsockopt(socket.IPPROTO_IPV6, IPV6_MTU_DISCOVER, PROBE)
        sock.setsockopt(socket.IPPROTO_IPV6, IPV6_DONTFRAG, 1)
    else:
        sock.setsockopt(socket.IPPROTO_IP, IP_MTU_DISCOVER, PROBE)
    keep_errors(sock)
    sock.connect(socket_address(Endpoint(address, QUIET_PORT if sock.proto == socket.IPPROTO_UDP else 0)))


def _echo(sock: socket.socket, address: Address) -> Echo:
    version, token = address.version, os.urandom(8)
    if sock.proto == socket.IPPROTO_UDP:
        return Echo(sock, "udp", lambda size: _filling(token, size - smallest(address)), lambda *_: True)
    with_header = sock.type == socket.SOCK_RAW and version == 4

    def packet(size_octets: int) -> bytes:
        return icmp_echo(version, token, _filling(token, size_octets - smallest(address)))

    def answered(sent: bytes, received: bytes) -> bool:
        message = _without_ip_header(received) if with_header else received
        return is_reply(version, sent, message)

    return Echo(sock, "icmp", packet, answered)


def icmp_echo(version: int, token: bytes, payload: bytes) -> bytes:
    """An echo request, its checksum as RFC 792 asks for it; of ICMPv6 the kernel fills it in (RFC 3542 section 3.1)."""
    identifier, number = struct.unpack_from("!HH", token)
    bare = ICMP_HEADER.pack(ECHO[version], 0, 0, identifier, number) + payload
    return ICMP_HEADER.pack(ECHO[version], 0, checksum(bare), identifier, number) + payload


def checksum(octets: bytes) -> int:
    """The Internet checksum: RFC 1071."""
    even = octets + b"\0" * (len(octets) % 2)
    total: int = sum(word for (word,) in struct.iter_unpack("!H", even))
    while total >> 16:
        total = (total & 0xFFFF) + (total >> 16)
    return ~total & 0xFFFF


def is_reply(version: int, sent: bytes, received: bytes) -> bool:
    """Whether a message is the whole reply to an echo request.

    The identifier is left out: of a datagram socket the system puts its own in. Number and payload are ours alone.
    """
    kind_and_code, after_identifier = received[:2], received[6:]
    return kind_and_code == bytes((ECHO_REPLY[version], 0)) and after_identifier == sent[6:]


def _filling(token: bytes, octets: int) -> bytes:
    """A payload of so many octets that no other program sends."""
    return (token * (octets // len(token) + 1))[: max(0, octets)]


def _without_ip_header(packet: bytes) -> bytes:
    """What an IPv4 packet carries; nothing where its header cannot be read."""
    return packet[(packet[0] & 0x0F) * 4 :] if packet else b""
