"""What the network told about a packet, in the layout of linux/errqueue.h."""

from __future__ import annotations

import errno
import random
import socket
import struct
import sys
from ipaddress import ip_address

import pytest

from netaudit.machine.linux.error_queue import ICMP, ICMP6, LOCAL, Told, keep_errors, next_error, told

ROUTER_4 = struct.pack("@HH", socket.AF_INET, 0) + bytes((10, 44, 20, 1)) + bytes(8)
"""struct sockaddr_in."""
ROUTER_6 = struct.pack("@HHI", socket.AF_INET6, 0, 0) + ip_address("2001:db8::1").packed + bytes(4)
"""struct sockaddr_in6."""


def extended(number: int, origin: int, kind: int, code: int, info: int = 0) -> bytes:
    """struct sock_extended_err: two words of 32 bits about four of 8."""
    return struct.pack("@IBBBBII", number, origin, kind, code, 0, info, 0)


TOO_LARGE_4 = (socket.IPPROTO_IP, 11, extended(errno.EMSGSIZE, ICMP, 3, 4, 1500) + ROUTER_4)
"""RFC 1191: destination unreachable, fragmentation needed, with the size of the next hop."""
TOO_LARGE_6 = (socket.IPPROTO_IPV6, 25, extended(errno.EMSGSIZE, ICMP6, 2, 0, 1280) + ROUTER_6)
"""RFC 8201: packet too big."""


def test_origins_have_the_numbers_of_the_public_header() -> None:
    """linux/errqueue.h: SO_EE_ORIGIN_LOCAL, SO_EE_ORIGIN_ICMP, SO_EE_ORIGIN_ICMP6."""
    assert (1, 2, 3) == (LOCAL, ICMP, ICMP6)


def test_a_router_that_finds_a_packet_too_large_tells_the_size_that_passes() -> None:
    four = Told(errno.EMSGSIZE, ICMP, 3, 4, 1500, ip_address("10.44.20.1"), b"ours")
    six = Told(errno.EMSGSIZE, ICMP6, 2, 0, 1280, ip_address("2001:db8::1"), b"ours")

    assert four == told(b"ours", [TOO_LARGE_4])
    assert six == told(b"ours", [TOO_LARGE_6])


def test_other_messages_beside_it_are_passed_over() -> None:
    assert told(b"", [TOO_LARGE_4]) == told(b"", [(socket.SOL_SOCKET, 29, b"\0" * 16), TOO_LARGE_4])


@pytest.mark.parametrize("ancillary", [[], [(socket.IPPROTO_IP, 8, b"\0" * 32)], [(socket.IPPROTO_IP, 11, b"\0" * 15)]])
def test_a_message_without_an_error_tells_nothing(ancillary: list[tuple[int, int, bytes]]) -> None:
    assert told(b"", ancillary) is None


@pytest.mark.parametrize("address", [b"", b"\2", ROUTER_4[:7], ROUTER_6[:23], struct.pack("@HH", 0, 0) + bytes(20)])
def test_an_error_without_an_address_has_no_offender(address: bytes) -> None:
    error = told(b"", [(socket.IPPROTO_IP, 11, extended(errno.EHOSTUNREACH, ICMP, 3, 1) + address)])

    assert error is not None
    assert (errno.EHOSTUNREACH, None) == (error.number, error.offender)


def test_mutated_messages_are_read_without_an_error() -> None:
    chance = random.Random(11)  # noqa: S311 - a seed, no secret
    for _ in range(2000):
        level, kind, data = chance.choice((TOO_LARGE_4, TOO_LARGE_6))
        octets = bytearray(data)
        octets[chance.randrange(len(octets))] = chance.randrange(256)
        error = told(b"", [(level, kind, bytes(octets[: chance.randrange(len(octets) + 1)]))])

        assert error is None or error.offender is None or error.offender.version in (4, 6)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only Linux keeps errors of a socket")
@pytest.mark.parametrize(("family", "host"), [(socket.AF_INET, "127.0.0.1"), (socket.AF_INET6, "::1")])
def test_a_closed_port_on_this_machine_is_told_by_this_machine(family: int, host: str) -> None:
    """RFC 1122 section 3.2.2.1: a datagram to a closed port is answered by port unreachable; RFC 4443 section 3.1."""
    with socket.socket(family, socket.SOCK_DGRAM) as quiet:
        quiet.bind((host, 0))
        port = quiet.getsockname()[1]
    with socket.socket(family, socket.SOCK_DGRAM) as sock:
        keep_errors(sock)
        sock.connect((host, port))
        sock.send(b"ours")
        error = next_error(sock)

        assert error is not None
        assert (errno.ECONNREFUSED, ip_address(host), b"ours") == (error.number, error.offender, error.packet)
        assert next_error(sock) is None
