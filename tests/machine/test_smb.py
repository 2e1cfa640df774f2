"""Asking SMB servers: honest ones, odd ones, and things that are no SMB server at all."""

from __future__ import annotations

import logging
import random
import threading
import uuid

import pytest
from oddservers import Behaviour, closes_at_once, keeps_silent, says, says_and_closes, served
from smbanswers import SIGNING_REQUIRED, VAULT, header, negotiated, refused_in_odd_words
from smbprotocol import Dialects

from netaudit.errors import AnswerError
from netaudit.machine.clock import Deadline
from netaudit.machine.smb import negotiate, offers
from netaudit.model.observation import SmbFacts

NO_SMB: dict[str, Behaviour] = {
    "silent": keeps_silent,
    "closed at once": closes_at_once,
    "web": says(b"HTTP/1.1 400 Bad Request\r\nContent-Length: 0\r\n\r\n"),
    "secure shell": says(b"SSH-2.0-example\r\n"),
    "half an answer": says(negotiated()[:70]),
    "half an answer, then closed": says_and_closes(negotiated()[:70]),
    "only SMB 1": says(b"\0\0\0\x24\xffSMB" + bytes(32)),
    "only a header": says(b"\0\0\0\x40" + header(0)),
    "another message's answer": says(b"\0\0\0\x40" + header(0)[:24] + b"\x09" + header(0)[25:]),
    "a version nobody knows": says(negotiated().replace(b"\x02\x03", b"\x99\x99")),
    "a refusal in odd words": says(refused_in_odd_words()),
    "garbage": says(bytes(range(256)) * 20),
    "a gigabyte announced": says(b"\x7f\xff\xff\xff"),
}


def worker_threads() -> list[str]:
    return [thread.name for thread in threading.enumerate() if thread.name not in ("MainThread", "odd-server")]


@pytest.mark.parametrize(
    ("answer", "expected"),
    [
        (negotiated(), SmbFacts("3.0.2", False, None, str(VAULT))),
        (negotiated(Dialects.SMB_2_0_2), SmbFacts("2.0.2", False, None, str(VAULT))),
        (negotiated(Dialects.SMB_2_1_0), SmbFacts("2.1", False, None, str(VAULT))),
        (negotiated(Dialects.SMB_3_0_0), SmbFacts("3.0", False, None, str(VAULT))),
        (negotiated(mode=SIGNING_REQUIRED), SmbFacts("3.0.2", True, None, str(VAULT))),
        (negotiated(identity=uuid.UUID(int=0)), SmbFacts("3.0.2", False, None, None)),
    ],
)
def test_a_server_tells_its_version_its_signing_and_who_it_is(answer: bytes, expected: SmbFacts) -> None:
    with served(says(answer)) as end:
        assert expected == negotiate(end.address, end.port, 2)


@pytest.mark.parametrize("behave", NO_SMB.values(), ids=NO_SMB.keys())
def test_whatever_is_no_smb_server_is_an_error_and_leaves_no_thread(
    behave: Behaviour, capfd: pytest.CaptureFixture[str], caplog: pytest.LogCaptureFixture
) -> None:
    with served(behave) as end:
        deadline = Deadline(2)
        with pytest.raises(AnswerError, match=str(end)):
            negotiate(end.address, end.port, 0.3)

        assert not deadline.over
    assert [] == worker_threads()
    assert ("", "") == capfd.readouterr()
    assert [] == [each.message for each in caplog.records if each.levelno >= logging.WARNING]


@pytest.mark.parametrize("behave", [NO_SMB["silent"], says(negotiated()), closes_at_once])
def test_a_server_that_falls_silent_while_somebody_signs_in_is_an_error_within_the_deadline(behave: Behaviour) -> None:
    with served(behave) as end:
        deadline = Deadline(2)
        with pytest.raises(AnswerError):
            offers(end.address, end.port, 0.3, "ada", "secret")

        assert not deadline.over
    assert [] == worker_threads()


def test_a_server_that_ends_the_conversation_at_the_sign_in_is_an_error() -> None:
    with served(says_and_closes(negotiated())) as end, pytest.raises(AnswerError, match="ended the conversation"):
        offers(end.address, end.port, 2)

    assert [] == worker_threads()


def test_mutated_answers_are_facts_or_errors_and_nothing_else() -> None:
    """Answers cut short, doubled and with bits turned over, a seed for each run."""
    chance = random.Random(4)  # noqa: S311 - a seed, no secret
    mutants: list[bytes] = []
    for _ in range(60):
        octets = bytearray(negotiated(chance.choice((Dialects.SMB_3_0_2, Dialects.SMB_3_1_1))))
        for _ in range(chance.randrange(6)):
            octets[chance.randrange(4, len(octets))] ^= 1 << chance.randrange(8)
        mutants.append(
            chance.choice((bytes(octets), bytes(octets) * 2, bytes(octets[: chance.randrange(len(octets))])))
        )

    left = iter(mutants)

    def behave(visitor: object) -> None:
        says_and_closes(next(left))(visitor)  # type: ignore[arg-type]

    with served(behave) as end:
        for _ in mutants:
            try:
                facts = negotiate(end.address, end.port, 0.5)
            except AnswerError:
                continue
            assert facts.dialect in ("2.0.2", "2.1", "3.0", "3.0.2", "3.1.1", None)
    assert [] == worker_threads()


def test_an_interrupt_ends_the_conversation(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("netaudit.machine.smb_session.facts", interrupted)
    with served(says(negotiated())) as end, pytest.raises(KeyboardInterrupt):
        negotiate(end.address, end.port, 5)

    assert [] == worker_threads()
