"""Large packets on this machine's own loopback; routers, narrow switches and silence are staged in the lab."""

from __future__ import annotations

import errno
import socket
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack
from ipaddress import ip_address

import pytest

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine.clock import Deadline
from netaudit.machine.linux import echoes, frames
from netaudit.machine.linux.echoes import Echo
from netaudit.machine.linux.error_queue import ICMP, LOCAL, Told
from netaudit.machine.linux.frames import Verdict, frame
from netaudit.model.machine_state import Route

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="sockets of Linux")
LOOPBACK = ip_address("127.0.0.1")
HERE = Route("lo", LOOPBACK)


@pytest.fixture(params=["any", "udp"])
def method(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """The best method of this user, and the one that every user has."""
    real = socket.socket

    def only_udp(family: int, kind: int, protocol: int) -> socket.socket:
        if protocol != socket.IPPROTO_UDP:
            raise PermissionError(errno.EPERM, "Operation not permitted")
        return real(family, kind, protocol)

    if request.param == "udp":
        monkeypatch.setattr(echoes.socket, "socket", only_udp)
    return str(request.param)


@pytest.mark.parametrize("address", ["127.0.0.1", "::1"])
@pytest.mark.parametrize("size", [48, 1500, 9000, 65_535])
def test_every_size_that_this_machine_sends_to_itself_comes_back(address: str, size: int, method: str) -> None:
    seen = frame(ip_address(address), size, Route("lo"), 2)

    assert (size, True, None) == (seen.size_octets, seen.passed, seen.told_mtu)
    assert seen.method in ("icmp", "udp")


@pytest.mark.parametrize("size", [0, 27, 65_536])
def test_a_size_that_no_packet_can_have_says_nothing(size: int) -> None:
    assert frame(LOOPBACK, size, HERE, 1).passed is None


def test_a_packet_that_would_take_another_road_says_nothing() -> None:
    assert frame(LOOPBACK, 1500, Route("en5", ip_address("10.44.20.11")), 1).passed is None


def test_an_address_that_nothing_leads_to_is_an_error_that_names_it() -> None:
    with pytest.raises(AnswerError, match=r"no way to send to fe80::1: .*no interface"):
        frame(ip_address("fe80::1"), 1500, Route("no-such-port"), 1)


def test_without_any_socket_the_right_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> socket.socket:
        raise PermissionError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(echoes.socket, "socket", refused)
    with pytest.raises(PrivilegeError):
        frame(LOOPBACK, 1500, HERE, 1)


@pytest.fixture
def mute() -> Iterator[Echo]:
    """A way to send to a neighbour that hears and never answers."""
    with (
        socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as neighbour,
        socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as sock,
    ):
        neighbour.bind((str(LOOPBACK), 0))
        sock.connect(neighbour.getsockname())
        yield Echo(sock, "icmp", lambda size: bytes(size - 28), lambda *_: False)


@pytest.fixture
def choosy() -> Iterator[Callable[[Sequence[bool]], tuple[Echo, list[int]]]]:
    """A way to send to a neighbour that answers each packet in turn or not, and the sizes that it was sent."""
    with ExitStack() as stack:

        def made(answers: Sequence[bool]) -> tuple[Echo, list[int]]:
            left, sizes = list(answers), []
            near, far = (stack.enter_context(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) for _ in range(2))
            far.bind((str(LOOPBACK), 0))
            near.connect(far.getsockname())
            far.connect(near.getsockname())

            class Sending:
                def send(self, packet: bytes) -> None:
                    sizes.append(len(packet) + 28)
                    if left.pop(0):
                        far.send(packet)

                def __getattr__(self, name: str) -> object:
                    return getattr(near, name)

            answered: Callable[[bytes, bytes], bool] = lambda sent, received: sent == received  # noqa: E731
            return Echo(Sending(), "icmp", lambda size: bytes(size - 28), answered), sizes  # type: ignore[arg-type]

        yield made


@pytest.mark.parametrize(
    ("answers", "passed"),
    [
        ((False, False, False, True), False),
        ((False, False, False, False), None),
        ((False, False, True, True), True),
        ((False, False, True, False), True),
    ],
)
def test_a_silence_counts_as_lost_only_where_a_small_packet_right_behind_is_answered(
    answers: Sequence[bool], passed: bool | None, choosy: Callable[[Sequence[bool]], tuple[Echo, list[int]]]
) -> None:
    """A host that answers only so many echoes in a second drops large and small ones alike."""
    echo, sizes = choosy(answers)

    assert Verdict(passed) == frames._tried(echo, 9000, 0.06)
    assert [9000, 9000, 9000, 576] == sizes


def test_an_early_answer_ends_the_tries(choosy: Callable[[Sequence[bool]], tuple[Echo, list[int]]]) -> None:
    echo, sizes = choosy((False, True))

    assert Verdict(passed=True) == frames._tried(echo, 9000, 0.06)
    assert [9000, 9000] == sizes


def test_tries_end_in_time(mute: Echo) -> None:
    deadline = Deadline(1)

    assert Verdict(None) == frames._tried(mute, 1500, 0.06)
    assert not deadline.over


def test_one_silent_datagram_says_nothing_where_hosts_hold_their_refusals_back(mute: Echo) -> None:
    """icmp(7): icmp_ratelimit lets a host tell of closed ports once a second."""
    assert Verdict(None) == frames._tried(mute._replace(method="udp"), 1500, 0.06)


def told(number: int, origin: int = ICMP, info: int = 0, offender: str | None = None) -> Told:
    return Told(number, origin, 3, 4, info, None if offender is None else ip_address(offender), b"")


@pytest.mark.parametrize(
    ("method", "error", "expected"),
    [
        ("icmp", told(errno.EMSGSIZE, info=1500, offender="10.44.20.1"), Verdict(False, 1500)),
        ("icmp", told(errno.EMSGSIZE, info=0, offender="10.44.20.1"), Verdict(False, None)),
        ("icmp", told(errno.EHOSTUNREACH, offender="10.44.20.1"), Verdict(None)),
        ("icmp", told(errno.ECONNREFUSED, offender="127.0.0.1"), Verdict(None)),
        ("udp", told(errno.ECONNREFUSED, offender="127.0.0.1"), Verdict(True)),
        ("udp", told(errno.ECONNREFUSED, offender="10.44.20.1"), Verdict(None)),
        ("udp", told(errno.ECONNREFUSED), Verdict(None)),
    ],
)
def test_an_error_is_read_for_what_it_says_of_the_packet(
    method: str, error: Told, expected: Verdict, mute: Echo
) -> None:
    """RFC 1191 section 4: old routers tell no size. RFC 1812 section 5.2.7.1: a router may refuse in a host's stead."""
    assert expected == frames._verdict(mute._replace(method=method), error)


@pytest.mark.parametrize(
    ("error", "queued", "expected"),
    [
        (errno.EMSGSIZE, told(errno.EMSGSIZE, LOCAL, 1500), Verdict(None, 1500)),
        (errno.EMSGSIZE, told(errno.EMSGSIZE, ICMP, 1400), Verdict(False, 1400)),
        (errno.EMSGSIZE, None, Verdict(None, 65_535)),
        (errno.EPERM, None, Verdict(None)),
        (errno.ENOBUFS, None, Verdict(None)),
        (errno.EHOSTUNREACH, told(errno.EHOSTUNREACH), Verdict(None)),
    ],
)
def test_a_packet_that_is_not_sent_says_why_where_it_can(
    error: int, queued: Told | None, expected: Verdict, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Refusing(socket.socket):
        def send(self, *_: object) -> int:
            raise OSError(error, "refused")

    monkeypatch.setattr(frames, "next_error", lambda _: queued)
    with Refusing(socket.AF_INET, socket.SOCK_DGRAM) as sock:
        sock.connect((str(LOOPBACK), 9))

        assert expected == frames._sent(Echo(sock, "icmp", bytes, lambda *_: False), b"")


def test_a_packet_of_version_6_that_is_not_sent_tells_the_ports_own_size(monkeypatch: pytest.MonkeyPatch) -> None:
    """The loopback takes 65,536 octets: linux/drivers/net/loopback.c. linux/in6.h: IPV6_MTU 24."""

    class Refusing(socket.socket):
        def send(self, *_: object) -> int:
            raise OSError(errno.EMSGSIZE, "refused")

    monkeypatch.setattr(frames, "next_error", lambda _: None)
    with Refusing(socket.AF_INET6, socket.SOCK_DGRAM) as sock:
        sock.connect(("::1", 9))
        told_mtu = frames._sent(Echo(sock, "icmp", bytes, lambda *_: False), b"").told_mtu

    assert 65_535 <= told_mtu <= 65_536


def test_datagrams_that_nobody_refuses_are_lost_where_each_had_its_time(
    mute: Echo, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(frames, "REFUSALS_APART_S", 0.02)

    assert Verdict(passed=False) == frames._tried(mute._replace(method="udp"), 1500, 0.06)


def test_what_answers_something_else_is_waited_past(mute: Echo) -> None:
    answers: Callable[[bytes, bytes], bool] = lambda sent, received: received == b"right"  # noqa: E731
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as neighbour:
        neighbour.bind((str(LOOPBACK), 0))
        mute.sock.connect(neighbour.getsockname())
        here = mute.sock.getsockname()
        neighbour.sendto(b"wrong", here)
        neighbour.sendto(b"right", here)

        assert Verdict(passed=True) == frames._answer(mute._replace(answered=answers), b"", Deadline(1))
