"""Ctrl-C during a long search asks for the best found so far."""

from __future__ import annotations

import os
import signal

import pytest

from netaudit.cli.stopping import Stopping


def interrupt() -> None:
    """What the terminal sends at Ctrl-C."""
    os.kill(os.getpid(), signal.SIGINT)


def test_the_first_one_during_a_search_is_remembered(capsys: pytest.CaptureFixture[str]) -> None:
    with Stopping() as stopping:
        assert not stopping.asked()
        interrupt()

        assert stopping.asked()
    assert "best found so far" in capsys.readouterr().err


def test_the_second_one_ends_the_program() -> None:
    with Stopping() as stopping:
        stopping.tell("3 boxes so far")
        interrupt()
        with pytest.raises(KeyboardInterrupt):
            interrupt()


def test_before_a_search_it_ends_the_program_as_ever() -> None:
    with Stopping(), pytest.raises(KeyboardInterrupt):
        interrupt()


def test_after_the_search_it_ends_the_program_again() -> None:
    with Stopping() as stopping:
        stopping.tell("3 boxes so far")
        stopping.searched()
        with pytest.raises(KeyboardInterrupt):
            interrupt()


def test_what_it_did_before_it_does_again_afterwards() -> None:
    before = signal.getsignal(signal.SIGINT)
    with Stopping():
        pass

    assert before == signal.getsignal(signal.SIGINT)


def test_progress_is_told_beside_the_answer(capsys: pytest.CaptureFixture[str]) -> None:
    with Stopping() as stopping:
        stopping.tell("3 boxes so far")
    captured = capsys.readouterr()

    assert ("", "3 boxes so far\n") == (captured.out, captured.err)
