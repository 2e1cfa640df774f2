"""Packets that ask for an answer: their size, their checksum, and which answers count."""

from __future__ import annotations

import errno
import socket
import sys
from contextlib import closing
from ipaddress import ip_address

import pytest
from scapy.layers.inet import ICMP, IP

from netaudit.errors import PrivilegeError
from netaudit.machine.linux import echoes
from netaudit.machine.linux.error_queue import Told

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="sockets of Linux")
LOOPBACK = ip_address("127.0.0.1")
TOKEN = b"\x12\x34\x00\x07abcd"


def test_an_echo_request_is_the_one_another_library_builds() -> None:
    """scapy, which computes the checksum of RFC 1071 itself."""
    for payload in (b"", b"a", b"Boathouse", b"\xff" * 1472):
        built = bytes(ICMP(type=8, code=0, id=0x1234, seq=7) / payload)

        assert built == echoes.icmp_echo(4, TOKEN, payload)


@pytest.mark.parametrize(
    ("octets", "expected"),
    [
        (bytes.fromhex("0001f203f4f5f6f7"), 0x220D),
        (b"", 0xFFFF),
        (b"\xff\xff", 0),
        (b"\x01", 0xFEFF),
    ],
)
def test_the_checksum_is_the_internets(octets: bytes, expected: int) -> None:
    """RFC 1071 section 3 works the first row: the sum is ddf2, its complement 220d."""
    assert expected == echoes.checksum(octets)


def test_a_reply_counts_only_whole_and_of_the_right_kind() -> None:
    sent = echoes.icmp_echo(4, TOKEN, b"payload")
    reply = b"\0\0" + sent[2:]

    assert echoes.is_reply(4, sent, reply)
    assert echoes.is_reply(4, sent, reply[:2] + b"\0\0\x77\x77" + reply[6:])
    assert not any(
        echoes.is_reply(4, sent, other)
        for other in (b"", sent, reply[:-1], reply + b"!", reply[:6] + b"\0\x08" + reply[8:], b"\0\1" + reply[2:])
    )


def test_a_reply_of_version_6_has_its_own_type() -> None:
    """RFC 4443 sections 4.1 and 4.2: 128 asks, 129 answers."""
    sent = echoes.icmp_echo(6, TOKEN, b"payload")

    assert 128 == sent[0]
    assert echoes.is_reply(6, sent, b"\x81\0" + sent[2:])
    assert not echoes.is_reply(6, sent, b"\0\0" + sent[2:])


@pytest.mark.parametrize(("address", "smallest"), [("10.44.20.10", 28), ("2001:db8::10", 48)])
def test_the_smallest_packet_has_only_headers(address: str, smallest: int) -> None:
    """RFC 791 section 3.1: 20 octets; RFC 8200 section 3: 40; and 8 of ICMP or UDP."""
    assert smallest == echoes.smallest(ip_address(address))


@pytest.fixture(params=["datagram", "raw", "udp"])
def allowed(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Sockets of one kind only are given; the kind is tried for real where this user may."""
    real = socket.socket

    def only(family: int, kind: int, protocol: int) -> socket.socket:
        udp = protocol == socket.IPPROTO_UDP
        wanted = {"datagram": kind == socket.SOCK_DGRAM and not udp, "raw": kind == socket.SOCK_RAW, "udp": udp}
        if not wanted[request.param]:
            raise PermissionError(errno.EPERM, "Operation not permitted")
        return real(family, kind, protocol)

    monkeypatch.setattr(echoes.socket, "socket", only)
    return str(request.param)


def test_the_packet_is_as_large_as_was_asked_by_every_method(allowed: str) -> None:
    try:
        echo = echoes.opened(LOOPBACK)
    except PrivilegeError:
        pytest.skip(f"this user may open no {allowed} sockets for ICMP: net.ipv4.ping_group_range; the lab tries them")
    with closing(echo.sock):
        assert ("udp" if allowed == "udp" else "icmp") == echo.method
        assert 1500 - 20 - (8 if allowed == "udp" else 0) == len(echo.packet(1500))
        assert 28 - 20 - (8 if allowed == "udp" else 0) == len(echo.packet(28))


@pytest.mark.parametrize(
    ("address", "options"),
    [
        ("127.0.0.1", ((socket.IPPROTO_IP, 10, 3),)),
        ("::1", ((socket.IPPROTO_IPV6, 23, 3), (socket.IPPROTO_IPV6, 62, 1))),
    ],
)
def test_no_packet_is_cut_and_a_datagram_goes_to_where_nobody_listens(
    address: str, options: tuple[tuple[int, int, int], ...], allowed: str
) -> None:
    """linux/in.h: IP_MTU_DISCOVER 10; linux/in6.h: IPV6_MTU_DISCOVER 23, IPV6_DONTFRAG 62; ip(7): IP_PMTUDISC_PROBE 3.
    traceroute(8): the default port is 33434."""
    try:
        echo = echoes.opened(ip_address(address))
    except PrivilegeError:
        pytest.skip(f"this user may open no {allowed} sockets for ICMP: net.ipv4.ping_group_range; the lab tries them")
    with closing(echo.sock):
        assert [value for *_, value in options] == [echo.sock.getsockopt(*option) for *option, _ in options]
        assert allowed != "udp" or echo.sock.getpeername()[:2] == (address, 33434)


def test_without_any_socket_the_right_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> socket.socket:
        raise PermissionError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(echoes.socket, "socket", refused)
    with pytest.raises(PrivilegeError, match="the right to open a datagram socket"):
        echoes.opened(LOOPBACK)


def test_an_error_of_the_system_that_is_no_refusal_is_passed_on(monkeypatch: pytest.MonkeyPatch) -> None:
    def none_left(*_: object) -> socket.socket:
        raise OSError(errno.EMFILE, "Too many open files")

    monkeypatch.setattr(echoes.socket, "socket", none_left)
    with pytest.raises(OSError, match="Too many open files"):
        echoes.opened(LOOPBACK)


@pytest.mark.parametrize(
    ("quoted", "ours"),
    [
        (b"\x08\0\0\0\x12\x34\0\x07abcd", True),
        (b"\x08\0\0\0\x12\x34\0\x07", True),
        (b"\x08\0\0\0\x99\x99\0\x01pingping", False),
    ],
)
def test_an_error_about_another_programs_packet_is_not_ours(quoted: bytes, ours: bool) -> None:
    """RFC 792: an error quotes the first 8 octets at least of what it is about."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as sock:
        echo = echoes.Echo(sock, "icmp", lambda _: b"", lambda *_: False)
        sent = echoes.icmp_echo(4, TOKEN, b"abcdefgh")

        assert ours is echo.tells_of(sent, Told(errno.EMSGSIZE, 2, 3, 4, 1500, None, quoted))


def test_an_ip_packet_is_read_past_its_header_however_long() -> None:
    """scapy builds headers with options; RFC 791 section 3.1: the header tells its own length."""
    for options in ([], [b"\x01\x01\x01\x01"]):
        packet = bytes(IP(src="10.44.20.10", dst="10.44.20.11", options=options) / b"message")
        plain = echoes._without_ip_header(packet)

        assert b"message" == plain
    assert b"" == echoes._without_ip_header(b"")
