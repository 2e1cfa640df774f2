"""Knocking: one TCP handshake with each of several ends at once, timed, and closed again without a word."""

from __future__ import annotations

import errno
import selectors
import socket
from collections.abc import Iterator, Sequence
from contextlib import closing
from typing import NamedTuple

from netaudit.errors import MachineError
from netaudit.machine.clock import Deadline, now_s
from netaudit.machine.sockets import family, socket_address
from netaudit.model.machine_state import Endpoint
from netaudit.model.observation import Outcome

UNDER_WAY = frozenset(
    {errno.EINPROGRESS, errno.EWOULDBLOCK, errno.EAGAIN, getattr(errno, "WSAEWOULDBLOCK", errno.EAGAIN)}
)
OUTCOMES: dict[int, Outcome] = {
    0: "open",
    errno.ECONNREFUSED: "refused",
    errno.ECONNRESET: "refused",
    errno.ETIMEDOUT: "silent",
    errno.EPERM: "blocked",
    errno.EACCES: "blocked",
    getattr(errno, "WSAEACCES", errno.EACCES): "blocked",
}
"""How a handshake ended, by the number of its error; any other says that there is no way."""
NO_MORE_SOCKETS = frozenset({errno.EMFILE, errno.ENFILE, errno.ENOBUFS, errno.ENOMEM})


class Knocked(NamedTuple):
    """One end, and how its handshake ended."""

    end: Endpoint
    outcome: Outcome
    seconds: float | None
    """From the first packet to the answer, a refusal included [s]; None where the host did not answer."""
    mss: int | None = None
    """Largest segment that the new connection may send [octets]; None where it is refused, or not told."""


def knocks(ends: Sequence[Endpoint], timeout_s: float) -> Iterator[Knocked]:
    """Shake hands with every end at once, each as soon as it is decided; those that keep silent come last.

    Nothing is sent beyond the handshake. Every socket is closed when the iterator ends or is closed.
    Raises MachineError where the system gives no more sockets.
    """
    deadline = Deadline(timeout_s)
    with selectors.DefaultSelector() as selector:
        try:
            yield from [known for end in ends if (known := _begun(selector, end)) is not None]
            while selector.get_map() and not deadline.over:
                yield from [_ended(selector, key) for key, _ in selector.select(deadline.left_s)]
            yield from [Knocked(key.data[0], "silent", None) for key in selector.get_map().values()]
        finally:
            for key in list(selector.get_map().values()):
                _socket(key).close()


def outcome_of(error: int) -> Outcome:
    """How a handshake ended, by the system's number of its error; 0 is none."""
    return OUTCOMES.get(error, "unreachable")


def _begun(selector: selectors.BaseSelector, end: Endpoint) -> Knocked | None:
    """Send the first packet; an outcome only where the system knows it at once."""
    try:
        knock = socket.socket(family(end.address), socket.SOCK_STREAM)
    except OSError as error:
        if error.errno in NO_MORE_SOCKETS:
            raise MachineError(f"this machine gives no more sockets: {error.strerror}") from error
        return Knocked(end, outcome_of(error.errno or errno.EAFNOSUPPORT), None)
    try:
        begun_s = now_s()
        error_number = _connect(knock, end)
        if error_number in UNDER_WAY:
            selector.register(knock, selectors.EVENT_WRITE, (end, begun_s))
            return None
        seconds = now_s() - begun_s
    except BaseException:
        knock.close()
        raise
    knock.close()
    return _known(end, error_number, seconds)


def _connect(knock: socket.socket, end: Endpoint) -> int:
    """Send the first packet; the number of the system's error, 0 for none."""
    try:
        knock.settimeout(0)
        return knock.connect_ex(socket_address(end))
    except OSError as error:
        return error.errno or errno.EADDRNOTAVAIL


def _ended(selector: selectors.BaseSelector, key: selectors.SelectorKey) -> Knocked:
    """How a handshake ended whose socket has become ready."""
    end, begun_s = key.data
    seconds = now_s() - begun_s
    selector.unregister(key.fileobj)
    with closing(_socket(key)) as knock:
        known = _known(end, knock.getsockopt(socket.SOL_SOCKET, socket.SO_ERROR), seconds)
        return known._replace(mss=_segment_octets(knock)) if known.outcome == "open" else known


def _known(end: Endpoint, error: int, seconds: float) -> Knocked:
    outcome = outcome_of(error)
    return Knocked(end, outcome, seconds if outcome in ("open", "refused") else None)


def _segment_octets(knock: socket.socket) -> int | None:
    """The largest segment that both ends agreed on [octets]."""
    option = getattr(socket, "TCP_MAXSEG", None)
    try:
        return None if option is None else knock.getsockopt(socket.IPPROTO_TCP, option) or None
    except OSError:
        return None


def _socket(key: selectors.SelectorKey) -> socket.socket:
    assert isinstance(key.fileobj, socket.socket)  # noqa: S101 - only sockets are registered
    return key.fileobj
