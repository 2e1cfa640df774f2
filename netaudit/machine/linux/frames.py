"""Large packets: whether one of an exact size, which nobody may cut, reaches an address and is answered.

Sources: RFC 1191 and RFC 8201 (what a router tells of a packet that is too large), ip(7), ipv6(7). A router or a switch
port that drops it without a word leaves nothing but silence, so a few packets have to be lost before that is said.
"""

from __future__ import annotations

import errno
import select
import socket
from contextlib import closing
from ipaddress import ip_address
from typing import NamedTuple

from netaudit.errors import AnswerError
from netaudit.machine.clock import Deadline
from netaudit.machine.linux import echoes
from netaudit.machine.linux.echoes import Echo
from netaudit.machine.linux.error_queue import LOCAL, Told, next_error
from netaudit.machine.sockets import on_link
from netaudit.model.machine_state import Route
from netaudit.model.observation import FrameTest
from netaudit.model.vocabulary import Address

IP_MTU, IPV6_MTU = 14, 24
TRIES = 3
"""Packets whose loss is not chance any more: common practice, no source."""
REFUSALS_APART_S = 1.0
"""How far apart a host tells of closed ports: icmp_ratelimit in icmp(7) is a second."""
LARGEST_OCTETS = 65_535
SMALL_OCTETS = 576
"""Packet that every host takes whole [octets]: RFC 791, section 3.1."""


class Verdict(NamedTuple):
    """What one packet came to."""

    passed: bool | None
    told_mtu: int | None = None


def frame(address: Address, size_octets: int, route: Route, timeout_s: float) -> FrameTest:
    """Send packets of one size on the road of a session and wait for an answer, not longer than `timeout_s`.

    `passed` is None where this machine's own port is smaller, where the packet would take another road than `route`,
    where somebody on the way says that there is none, and where a silence proves nothing.
    Raises PrivilegeError where no method works, AnswerError where there is no way to send.
    """
    remote = on_link(address, route.interface)
    if not echoes.smallest(remote) <= size_octets <= LARGEST_OCTETS:
        return FrameTest(size_octets, None, "icmp")
    try:
        echo = echoes.opened(remote)
    except OSError as error:
        raise AnswerError(f"no way to send to {address}: {error.strerror or error}") from error
    with closing(echo.sock):
        verdict = _tried(echo, size_octets, timeout_s) if _same_road(echo, route) else Verdict(None)
    return FrameTest(size_octets, verdict.passed, echo.method, verdict.told_mtu)


def _same_road(echo: Echo, route: Route) -> bool:
    """Whether packets leave with the source address of the session's own road."""
    return route.source is None or int(ip_address(echo.sock.getsockname()[0])) == int(route.source)


def _tried(echo: Echo, size_octets: int, timeout_s: float) -> Verdict:
    """Send until something is known; a silence counts only after every try was made far enough from the last.

    Behind the last echo follows a small one: a host that answers only so many in a second drops both.
    """
    apart_s = max(timeout_s / TRIES, REFUSALS_APART_S if echo.method == "udp" else 0)
    tries = max(1, min(TRIES, int(timeout_s / apart_s + 1e-9)))
    packet = echo.packet(size_octets)
    for turn in range(tries):
        refused = _sent(echo, packet)
        deadline = Deadline(min(apart_s, timeout_s))
        if refused is None and echo.method == "icmp" and turn + 1 == TRIES:
            return _told_apart(echo, packet, echo.packet(min(size_octets, SMALL_OCTETS)), deadline)
        verdict = refused or _answer(echo, packet, deadline)
        if verdict is not None:
            return verdict
    return Verdict(passed=False if tries == TRIES else None)


def _told_apart(echo: Echo, packet: bytes, small: bytes, deadline: Deadline) -> Verdict:
    """The verdict on a packet by what becomes of a small one right behind it: only the size sets them apart."""
    if _sent(echo, small) is not None:
        return Verdict(None)
    small_passed = False
    ready = select.poll()
    ready.register(echo.sock, select.POLLIN)
    while ready.poll(deadline.left_s * 1000):
        told = next_error(echo.sock)
        if told is not None and echo.tells_of(packet, told):
            return _verdict(echo, told)
        received = b"" if told is not None else _received(echo.sock)
        if echo.answered(packet, received):
            return Verdict(passed=True)
        small_passed = small_passed or echo.answered(small, received)
        if deadline.over:
            break
    return Verdict(passed=False if small_passed else None)


def _sent(echo: Echo, packet: bytes) -> Verdict | None:
    """Send one packet; a verdict where this machine would not."""
    try:
        echo.sock.send(packet)
    except OSError as error:
        told = next_error(echo.sock)
        if error.errno != errno.EMSGSIZE:
            return Verdict(None) if told is None else _verdict(echo, told)
        if told is not None and told.origin != LOCAL:
            return _verdict(echo, told)
        return Verdict(None, _mtu_here(echo.sock) if told is None else told.info)
    return None


def _answer(echo: Echo, packet: bytes, deadline: Deadline) -> Verdict | None:
    """Wait for the answer to a packet; None where the time passes in silence."""
    ready = select.poll()
    ready.register(echo.sock, select.POLLIN)
    while ready.poll(deadline.left_s * 1000):
        told = next_error(echo.sock)
        if told is not None and echo.tells_of(packet, told):
            return _verdict(echo, told)
        if told is None and echo.answered(packet, _received(echo.sock)):
            return Verdict(passed=True)
        if deadline.over:
            break
    return None


def _verdict(echo: Echo, told: Told) -> Verdict:
    """What an error says of the packet: too large for the next hop, or arrived at a closed port."""
    if told.number == errno.EMSGSIZE:
        return Verdict(passed=False, told_mtu=told.info or None)
    closed_port = echo.method == "udp" and told.number == errno.ECONNREFUSED
    if closed_port and told.offender == ip_address(echo.sock.getpeername()[0].partition("%")[0]):
        return Verdict(passed=True)
    return Verdict(None)


def _received(sock: socket.socket) -> bytes:
    try:
        return sock.recv(2 * LARGEST_OCTETS, socket.MSG_DONTWAIT)
    except OSError:
        return b""


def _mtu_here(sock: socket.socket) -> int | None:
    """The largest packet that the system would send to the peer of a socket [octets]."""
    try:
        if sock.family == socket.AF_INET6:
            return sock.getsockopt(socket.IPPROTO_IPV6, IPV6_MTU)
        return sock.getsockopt(socket.IPPROTO_IP, IP_MTU)
    except OSError:
        return None
