"""Listening to several pipes at once, within a time: by polling where the system can, else by a thread for each."""

from __future__ import annotations

import os
import queue
import selectors
import threading
from collections.abc import Sequence
from typing import IO, Protocol

from netaudit.machine.clock import Deadline

CHUNK_BYTES = 65_536
CHUNKS_AT_MOST = 32
"""Chunks that wait to be heard before a pipe is left alone."""


class Hearing(Protocol):
    """Pipes that are listened to."""

    @property
    def open(self) -> bool:
        """Whether any pipe may still bring something."""

    def hear(self, timeout_s: float) -> list[tuple[int, bytes]]:
        """What came first within that time, each chunk with the number of its pipe; empty where nothing came."""

    def close(self) -> None:
        """Close every pipe."""


class PolledPipes:
    """Pipes on a system that can wait for several at once."""

    def __init__(self, pipes: Sequence[IO[bytes]]) -> None:
        self._selector = selectors.DefaultSelector()
        self._pipes = pipes
        for number, pipe in enumerate(pipes):
            self._selector.register(pipe, selectors.EVENT_READ, number)

    @property
    def open(self) -> bool:
        """Whether any pipe may still bring something."""
        return bool(self._selector.get_map())

    def hear(self, timeout_s: float) -> list[tuple[int, bytes]]:
        """What came first within that time."""
        heard = []
        for key, _ in self._selector.select(timeout_s) if self.open else ():
            chunk = os.read(key.fd, CHUNK_BYTES)
            if chunk:
                heard.append((key.data, chunk))
            else:
                self._leave(key)
        return heard

    def close(self) -> None:
        """Close every pipe."""
        for key in list((self._selector.get_map() or {}).values()):
            self._leave(key)
        self._selector.close()

    def _leave(self, key: selectors.SelectorKey) -> None:
        self._selector.unregister(key.fileobj)
        self._pipes[key.data].close()


class ThreadedPipes:
    """Pipes on a system that can only wait for one at a time; a thread ends when the writers of its pipe do."""

    def __init__(self, pipes: Sequence[IO[bytes]]) -> None:
        self._heard: queue.Queue[tuple[int, bytes]] = queue.Queue(CHUNKS_AT_MOST)
        self._closing = False
        self._open = len(pipes)
        for number, pipe in enumerate(pipes):
            threading.Thread(target=self._listen, args=(number, pipe), daemon=True).start()

    @property
    def open(self) -> bool:
        """Whether any pipe may still bring something."""
        return self._open > 0

    def hear(self, timeout_s: float) -> list[tuple[int, bytes]]:
        """What came first within that time."""
        deadline = Deadline(timeout_s)
        while self.open:
            try:
                number, chunk = self._heard.get(timeout=deadline.left_s or None, block=not deadline.over)
            except queue.Empty:
                return []
            if chunk:
                return [(number, chunk)]
            self._open -= 1
        return []

    def close(self) -> None:
        """Close every pipe."""
        self._closing = True
        self._open = 0
        while not self._heard.empty():
            self._heard.get_nowait()

    def _listen(self, number: int, pipe: IO[bytes]) -> None:
        with pipe:
            while chunk := os.read(pipe.fileno(), CHUNK_BYTES):
                if self._closing:
                    return
                self._heard.put((number, chunk))
        if not self._closing:
            self._heard.put((number, b""))


def listen_to(pipes: Sequence[IO[bytes]]) -> Hearing:
    """Listen to pipes in the way that this system knows."""
    return PolledPipes(pipes) if os.name == "posix" else ThreadedPipes(pipes)
