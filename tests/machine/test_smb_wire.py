"""The wire beneath an SMB conversation, against servers that do as they like."""

from __future__ import annotations

import socket
import threading

import pytest
from oddservers import LOOPBACK, Behaviour, closes_at_once, keeps_silent, says, says_and_closes, served

from netaudit.errors import AnswerError, SilenceError
from netaudit.machine.clock import Deadline
from netaudit.machine.smb_wire import MOST_OCTETS, Wire
from netaudit.model.machine_state import Endpoint

HEADER = b"\xfeSMB" + bytes(60)
"""The 64 octets of a header by MS-SMB2 section 2.2.1, all zero after its first word."""


def framed(message: bytes) -> bytes:
    """A message as MS-SMB2 section 2.1 puts it on TCP: a zero, then the length in three octets."""
    return b"\0" + len(message).to_bytes(3) + message


def answer_of(behave: Behaviour, seconds: float = 0.3) -> bytes:
    with served(behave) as end:
        wire = Wire(end, Deadline(seconds))
        try:
            wire.connect()
            wire.send(b"hello")
            return wire.recv(600)
        finally:
            wire.free()


def test_a_message_comes_whole_however_it_is_cut() -> None:
    octets = framed(HEADER)

    assert HEADER == answer_of(says(octets[:2], octets[2:30], octets[30:]))


def test_a_message_is_sent_with_its_length() -> None:
    heard: list[bytes] = []

    def listens(visitor: socket.socket) -> None:
        heard.append(visitor.recv(9))
        visitor.sendall(framed(HEADER))

    answer_of(listens)

    assert [b"\0\0\0\x05hello"] == heard


@pytest.mark.parametrize(
    ("behave", "words"),
    [
        (keeps_silent, "did not answer as an SMB server in time"),
        (closes_at_once, "ended the conversation"),
        (says(framed(HEADER)[:40]), "did not answer as an SMB server in time"),
        (says_and_closes(framed(HEADER)[:40]), "ended the conversation"),
        (says_and_closes(b"\0"), "ended the conversation"),
        (says(b"HTTP/1.1 400 Bad Request\r\n\r\n"), "is no SMB server"),
        (says(b"SSH-2.0-example\r\n"), "is no SMB server"),
        (says(framed(b"")), "is no SMB server"),
        (says(framed(b"\xffSMB" + bytes(28))), "speaks only SMB 1"),
        (says(framed(b"\xfeSMX" + bytes(60))), "is no SMB server"),
        (says(framed(b"\xfeSMB" + bytes(16) + b"\x01" + bytes(43))), "is no SMB server"),
        (says((MOST_OCTETS + 1).to_bytes(4)), "is no SMB server"),
    ],
)
def test_whatever_is_no_answer_is_an_error_that_says_so(behave: Behaviour, words: str) -> None:
    with pytest.raises(AnswerError, match=words):
        answer_of(behave)


def test_silence_is_told_from_other_errors() -> None:
    with pytest.raises(SilenceError):
        answer_of(keeps_silent, 0.05)


def test_a_port_that_is_closed_is_an_error_that_names_it() -> None:
    with socket.socket() as free:
        free.bind((str(LOOPBACK), 0))
        end = Endpoint(LOOPBACK, free.getsockname()[1])
    wire = Wire(end, Deadline(1))
    try:
        with pytest.raises(AnswerError, match=f"{end}: Connection refused"):
            wire.connect()
    finally:
        wire.free()


def test_nothing_is_sent_after_the_deadline() -> None:
    with served(keeps_silent) as end:
        deadline = Deadline(0.05)
        wire = Wire(end, deadline)
        wire.connect()
        with pytest.raises(AnswerError, match="in time"):
            wire.recv(600)
        with pytest.raises(AnswerError, match="in time"):
            wire.send(b"hello")
        wire.free()

        assert deadline.over


def test_closing_wakes_whoever_waits_for_a_message() -> None:
    got: list[bytes] = []
    with served(keeps_silent) as end:
        wire = Wire(end, Deadline(30))
        wire.connect()
        waiting = threading.Thread(target=lambda: got.append(wire.recv(600)))
        waiting.start()
        wire.close()
        waiting.join(5)
        wire.free()

    assert [b""] == got
