"""Handshakes with ends on this machine's own loopback."""

from __future__ import annotations

import errno
import gc
import os
import socket
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from ipaddress import ip_address

import pytest

from netaudit.errors import MachineError
from netaudit.machine.knocking import Knocked, knocks, outcome_of
from netaudit.model.machine_state import Endpoint

LOOPBACK = ip_address("127.0.0.1")


@contextmanager
def listening(backlog: int = 16) -> Iterator[tuple[socket.socket, Endpoint]]:
    """A service on a port that the system chooses."""
    with socket.socket() as service:
        service.bind(("127.0.0.1", 0))
        service.listen(backlog)
        yield service, Endpoint(LOOPBACK, service.getsockname()[1])


@contextmanager
def deaf() -> Iterator[Endpoint]:
    """A service whose queue is full: further handshakes get no answer (listen(2), SOMAXCONN and the backlog)."""
    with ExitStack() as stack:
        _, end = stack.enter_context(listening(0))
        for _ in range(4):
            client = stack.enter_context(socket.socket())
            client.setblocking(False)
            client.connect_ex((str(end.address), end.port))
        yield end


def closed_end() -> Endpoint:
    """A port at which nobody listens any more."""
    with listening() as (_, end):
        return end


def open_files() -> int:
    gc.collect()
    return len(os.listdir("/dev/fd"))


def test_a_service_that_listens_is_open_and_timed() -> None:
    with listening() as (_, end):
        [known] = knocks([end], 2)

    assert (end, "open") == (known.end, known.outcome)
    assert 0 < (known.seconds or 0) < 2


def test_a_closed_port_is_refused_and_as_good_a_round_trip() -> None:
    """RFC 9293 section 3.10.7.1: a segment to a closed port is answered by a reset."""
    [known] = knocks([closed_end()], 2)

    assert known.outcome == "refused"
    assert 0 < (known.seconds or 0) < 2


def test_an_end_that_does_not_answer_is_silent_and_has_no_time() -> None:
    with deaf() as end:
        expected = [Knocked(end, "silent", None)]

        assert expected == list(knocks([end], 0.05))


def test_every_end_is_asked_at_once_and_the_silent_come_last() -> None:
    with deaf() as silent, listening() as (_, opened):
        refused = closed_end()
        seen = list(knocks([silent, opened, refused], 0.2))

    assert "silent" == seen[-1].outcome
    assert {silent: "silent", opened: "open", refused: "refused"} == {each.end: each.outcome for each in seen}


def test_nothing_is_sent_after_the_handshake_and_it_is_closed_in_order() -> None:
    with listening() as (service, end):
        list(knocks([end], 2))
        service.settimeout(2)
        visitor, _ = service.accept()
        with visitor:
            visitor.settimeout(2)

            assert b"" == visitor.recv(16)


def test_a_scope_that_names_no_interface_has_no_way() -> None:
    end = Endpoint(ip_address("fe80::1%no-such-port"), 445)

    assert [Knocked(end, "unreachable", None)] == list(knocks([end], 2))


def test_nobody_to_ask_is_answered_by_nothing() -> None:
    assert [] == list(knocks([], 2))


@pytest.mark.skipif(not os.path.isdir("/dev/fd"), reason="this system does not list open files")
def test_every_socket_is_closed_at_the_deadline_and_when_the_caller_leaves_early() -> None:
    with deaf() as silent, listening() as (_, opened):
        before = open_files()
        list(knocks([silent, opened], 0.05))
        left = knocks([silent, silent, opened], 5)
        next(left)
        left.close()  # type: ignore[attr-defined]

        assert before == open_files()


def test_every_socket_is_closed_when_the_user_interrupts(monkeypatch: pytest.MonkeyPatch) -> None:
    with deaf() as silent:
        before = open_files()
        running = knocks([silent, silent], 5)
        monkeypatch.setattr("netaudit.machine.knocking.selectors.DefaultSelector.select", _interrupted)
        with pytest.raises(KeyboardInterrupt):
            next(running)

        assert before == open_files()


def _interrupted(*_: object) -> None:
    raise KeyboardInterrupt


def test_a_machine_without_sockets_left_cannot_be_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    def none_left(*_: object) -> socket.socket:
        raise OSError(errno.EMFILE, "Too many open files")

    monkeypatch.setattr("netaudit.machine.knocking.socket.socket", none_left)
    with pytest.raises(MachineError, match="no more sockets: Too many open files"):
        list(knocks([Endpoint(LOOPBACK, 445)], 2))


@pytest.mark.parametrize(
    ("error", "outcome"),
    [
        (0, "open"),
        (errno.ECONNREFUSED, "refused"),
        (errno.ETIMEDOUT, "silent"),
        (errno.ENETUNREACH, "unreachable"),
        (errno.EHOSTUNREACH, "unreachable"),
        (errno.ENETDOWN, "unreachable"),
        (errno.EADDRNOTAVAIL, "unreachable"),
        (errno.EPERM, "blocked"),
        (errno.EACCES, "blocked"),
    ],
)
def test_every_error_of_connect_has_its_outcome(error: int, outcome: str) -> None:
    """The errors that connect(2) and ip(7) name."""
    assert outcome == outcome_of(error)


def test_an_open_service_tells_the_largest_segment_that_both_ends_agreed_on_and_a_closed_one_nothing() -> None:
    with listening() as (_, end):
        [known] = knocks([end], 2)
    [refused] = knocks([closed_end()], 2)

    assert (known.mss or 0) >= 536  # the least that every host takes: RFC 9293, section 3.7.1
    assert refused.mss is None
