"""Routers on the way, to this machine itself; a router in between is staged in the lab."""

from __future__ import annotations

import errno
import socket
import sys
from ipaddress import ip_address

import pytest

from netaudit.errors import AnswerError
from netaudit.machine.linux import routers as module
from netaudit.machine.linux.error_queue import ICMP, Told
from netaudit.machine.linux.routers import routers
from netaudit.model.vocabulary import Address

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="sockets of Linux")
STORAGE = ip_address("198.51.100.10")
EXCEEDED, UNREACHABLE = 11, 3
"""ICMP types of RFC 792."""


@pytest.mark.parametrize("address", ["127.0.0.1", "::1"])
def test_no_router_stands_between_this_machine_and_itself(address: str) -> None:
    assert () == routers(ip_address(address), 3, 2)


def test_an_address_that_nothing_leads_to_is_an_error() -> None:
    with pytest.raises(AnswerError, match=r"no way to send to fe80::1%7777: "):
        routers(ip_address("fe80::1%7777"), 3, 1)


def answering(monkeypatch: pytest.MonkeyPatch, *answers: tuple[int, str] | None) -> list[int]:
    """Each datagram in turn has its answer; how far each was let go."""
    distances: list[int] = []

    def told(_: Address, distance: int, __: float) -> Told | None:
        distances.append(distance)
        answer = answers[distance - 1]
        if answer is None:
            return None
        return Told(errno.EHOSTUNREACH, ICMP, answer[0], 0, 0, ip_address(answer[1]), b"")

    monkeypatch.setattr(module, "_told", told)
    return distances


def test_routers_stand_in_their_order_up_to_the_address_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    distances = answering(
        monkeypatch, (EXCEEDED, "10.44.20.1"), (EXCEEDED, "192.0.2.1"), (UNREACHABLE, str(STORAGE)), None
    )

    assert (ip_address("10.44.20.1"), ip_address("192.0.2.1")) == routers(STORAGE, 4, 1)
    assert [1, 2, 3] == distances


def test_a_silent_router_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    answering(monkeypatch, None, (EXCEEDED, "192.0.2.1"), None)

    assert (ip_address("192.0.2.1"),) == routers(STORAGE, 3, 1)


def test_a_router_that_knows_no_further_is_the_last(monkeypatch: pytest.MonkeyPatch) -> None:
    distances = answering(monkeypatch, (UNREACHABLE, "10.44.20.1"), None)

    assert (ip_address("10.44.20.1"),) == routers(STORAGE, 2, 1)
    assert [1] == distances


def test_routers_that_all_keep_silent_are_no_empty_road(monkeypatch: pytest.MonkeyPatch) -> None:
    answering(monkeypatch, None, (UNREACHABLE, str(STORAGE)))
    with pytest.raises(AnswerError, match="lies behind 1 routers"):
        routers(STORAGE, 2, 1)


def test_a_silence_from_everybody_is_no_empty_road(monkeypatch: pytest.MonkeyPatch) -> None:
    answering(monkeypatch, None, None)
    with pytest.raises(AnswerError, match=r"neither a router nor 198\.51\.100\.10 itself answered within 1 s"):
        routers(STORAGE, 2, 1)


def test_one_address_on_two_links_is_one(monkeypatch: pytest.MonkeyPatch) -> None:
    def told(*_: object) -> Told:
        return Told(errno.ECONNREFUSED, ICMP, 1, 4, 0, ip_address("fe80::10"), b"")

    monkeypatch.setattr(module, "_told", told)

    assert () == routers(ip_address("fe80::10%en5"), 2, 1)


def test_every_socket_is_closed(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[socket.socket] = []
    real = socket.socket

    def making(*arguments: int) -> socket.socket:
        made.append(real(*arguments))
        return made[-1]

    monkeypatch.setattr(module.socket, "socket", making)
    routers(ip_address("127.0.0.1"), 3, 2)

    assert [-1] == [sock.fileno() for sock in made]
