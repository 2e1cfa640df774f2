"""Asking without falling over."""

from __future__ import annotations

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine.clock import Deadline
from netaudit.model.observation import Skipped
from netaudit.probing.asking import Notebook


def _raises(error: Exception):
    def question() -> int:
        raise error

    return question


def test_an_answer_is_given_back_and_nothing_is_noted() -> None:
    notes = Notebook(Deadline(5))

    assert notes.ask("the time", (), lambda: 0) == 0
    assert notes.skipped == ()


def test_a_missing_privilege_is_noted_by_name_with_the_rules_that_wanted_it() -> None:
    notes = Notebook(Deadline(5))
    expected = Skipped("who answers", "it is told only with sudo", "probe with sudo", ("no-answer",))

    assert notes.ask("who answers", ("no-answer",), _raises(PrivilegeError("sudo"))) is None
    assert (expected,) == notes.skipped


def test_a_late_answer_is_noted_in_its_own_words_and_only_once() -> None:
    notes = Notebook(Deadline(5))
    for _ in range(2):
        notes.ask("who answers", (), _raises(AnswerError("it was late")))

    assert ["it was late"] == [each.why for each in notes.skipped]


def test_nothing_is_asked_when_the_time_is_up() -> None:
    notes = Notebook(Deadline(0))

    assert notes.ask("the time", (), lambda: 1) is None
    assert ["the time of the probe was up"] == [each.why for each in notes.skipped]
