"""Servers on the loopback that answer as a test tells them to, and are gone at its end."""

from __future__ import annotations

import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from ipaddress import ip_address

from netaudit.model.machine_state import Endpoint

LOOPBACK = ip_address("127.0.0.1")
Behaviour = Callable[[socket.socket], None]


@contextmanager
def served(behave: Behaviour) -> Iterator[Endpoint]:
    """A server that treats one visitor after the other by `behave`, which is given the connection."""
    with socket.socket() as service:
        service.bind((str(LOOPBACK), 0))
        service.listen()
        service.settimeout(0.02)
        ended = threading.Event()
        thread = threading.Thread(target=_serve, args=(service, behave, ended), name="odd-server")
        thread.start()
        try:
            yield Endpoint(LOOPBACK, service.getsockname()[1])
        finally:
            ended.set()
            thread.join(5)


def _serve(service: socket.socket, behave: Behaviour, ended: threading.Event) -> None:
    while not ended.is_set():
        with suppress(TimeoutError):
            visitor, _ = service.accept()
            with visitor, suppress(OSError):
                visitor.settimeout(2)
                behave(visitor)


def closes_at_once(visitor: socket.socket) -> None:
    """Ends the connection without a word."""


def keeps_silent(visitor: socket.socket) -> None:
    """Hears everything and says nothing until the visitor leaves."""
    while visitor.recv(65_536):
        pass


def says(*parts: bytes) -> Behaviour:
    """Hears a first message, says something, and waits for the visitor to leave."""

    def behave(visitor: socket.socket) -> None:
        visitor.recv(65_536)
        for part in parts:
            visitor.sendall(part)
        keeps_silent(visitor)

    return behave


def says_and_closes(octets: bytes) -> Behaviour:
    """Hears a first message, says something and ends the connection."""

    def behave(visitor: socket.socket) -> None:
        visitor.recv(65_536)
        visitor.sendall(octets)

    return behave
