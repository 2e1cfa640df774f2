"""The wire beneath an SMB conversation: one TCP connection that ends with a deadline, whatever the other end does.

Source: MS-SMB2 section 2.1, the frame of messages over TCP. Connect, send, recv, close and connected are what the SMB
library asks of its transport.
"""

from __future__ import annotations

import socket
from typing import Protocol

from netaudit.errors import AnswerError, SilenceError
from netaudit.machine.clock import Deadline
from netaudit.machine.sockets import family, socket_address
from netaudit.model.machine_state import Endpoint

LENGTH_OCTETS = 4
MOST_OCTETS = 100_000
"""A longer message is not listened to: every answer that is asked for fits in 64 KiB and its header."""
SMB_1, SMB_2, ENCRYPTED = b"\xffSMB", b"\xfeSMB", b"\xfdSMB"
"""How a message begins."""
NEXT_COMMAND = slice(20, 24)
"""Where a message tells that another follows within it: MS-SMB2 section 2.2.1."""
SHORTEST_WAIT_S = 0.001
"""A wait of nothing would mean one that never blocks [s]."""


class Packable(Protocol):
    """A structure of the library."""

    def pack(self) -> bytes:
        """Its octets."""


class Wire:
    """A connection to one end: every wait on it is over at the deadline, and every message is bounded."""

    def __init__(self, end: Endpoint, deadline: Deadline) -> None:
        self.connected = False
        self._end = end
        self._deadline = deadline
        self._sock = socket.socket(family(end.address), socket.SOCK_STREAM)

    def connect(self) -> None:
        """Make the connection; raises AnswerError where there is none in time."""
        self._wait_no_longer()
        try:
            self._sock.connect(socket_address(self._end))
        except TimeoutError as error:
            raise AnswerError(f"{self._end} does not take a connection in time") from error
        except OSError as error:
            raise AnswerError(f"{self._end}: {error.strerror or error}") from error
        self.connected = True

    def send(self, message: bytes | Packable) -> None:
        """Send one message; an encrypted one comes unpacked."""
        octets = message if isinstance(message, bytes) else message.pack()
        self._wait_no_longer()
        try:
            self._sock.sendall(len(octets).to_bytes(LENGTH_OCTETS) + octets)
        except TimeoutError as error:
            raise self._late() from error
        except OSError as error:
            raise AnswerError(f"{self._end} ended the conversation: {error.strerror or error}") from error

    def recv(self, _timeout_s: float) -> bytes:
        """The next message; empty once this side has closed. The library's own, longer time is not waited for.

        Raises SilenceError where it does not come in time, AnswerError where it ends half-way, is too long or is no SMB
        2 or 3.
        """
        length = int.from_bytes(self._octets(LENGTH_OCTETS))
        if length > MOST_OCTETS:
            raise AnswerError(f"what answers at {self._end} is no SMB server")
        message = self._octets(length)
        if message.startswith(SMB_1):
            raise AnswerError(f"{self._end} speaks only SMB 1")
        if self.connected and not _is_single(message):
            raise AnswerError(f"what answers at {self._end} is no SMB server")
        return message

    def close(self) -> None:
        """End the conversation: whoever waits for a message wakes up. The socket itself is freed by `free`."""
        if self.connected:
            self.connected = False
            try:
                self._sock.shutdown(socket.SHUT_RDWR)
            except OSError:
                return

    def free(self) -> None:
        """Give the socket back, once nobody waits on it any more."""
        self.close()
        self._sock.close()

    def _octets(self, count: int) -> bytes:
        """Exactly so many octets; none once this side has closed."""
        got = bytearray()
        while len(got) < count:
            self._wait_no_longer()
            try:
                part = self._sock.recv(count - len(got))
            except TimeoutError as error:
                raise self._late() from error
            except OSError as error:
                raise AnswerError(f"{self._end} ended the conversation: {error.strerror or error}") from error
            if not self.connected:
                return b""
            if not part:
                raise AnswerError(f"{self._end} ended the conversation")
            got += part
        return bytes(got)

    def _wait_no_longer(self) -> None:
        """Bound the next call by what is left of the time."""
        if self._deadline.over:
            raise self._late()
        self._sock.settimeout(max(self._deadline.left_s, SHORTEST_WAIT_S))

    def _late(self) -> SilenceError:
        return SilenceError(f"{self._end} did not answer as an SMB server in time")


def _is_single(message: bytes) -> bool:
    """Whether a message is one of SMB 2 or 3 and stands alone, as every answer to a single question does."""
    return message.startswith(ENCRYPTED) or (message.startswith(SMB_2) and not any(message[NEXT_COMMAND]))
