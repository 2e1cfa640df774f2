"""Questions: each has a default that is an answer, and says what it takes."""

from __future__ import annotations

from typing import Any

import pytest

from netaudit.plan.drafting.interview import answers_in, answers_of
from netaudit.plan.drafting.questions import QUESTIONS, Question

BY_KEY = {question.key: question for question in QUESTIONS}


def taken(**typed: str) -> dict[str, Any]:
    """The values of a conversation in which only some questions are answered by hand."""
    given: dict[str, Any] = {}
    for question in QUESTIONS:
        given[question.key] = question.read(typed.get(question.key, question.default_text(given)), given)
    return given


def test_no_key_stands_twice() -> None:
    assert len(QUESTIONS) == len(BY_KEY)


def test_defaults_alone_are_what_an_empty_file_of_answers_is() -> None:
    assert answers_in("{}", "x") == answers_of(taken())


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.key)
def test_a_question_is_one_short_line_with_its_default_in_the_help(question: Question) -> None:
    wording = question.wording(taken())

    assert wording.endswith("?")
    assert not set("{}\n") & set(wording)
    assert 120 > len(f"{wording} [{question.default_text(taken())}]: ")
    assert question.explained.endswith("]")


@pytest.mark.parametrize(
    ("key", "typed", "expected"),
    [
        ("switch", {"seats": "1"}, "no"),
        ("switch", {"seats": "2"}, "yes"),
        ("storage", {"seats": "a"}, "vault"),
        ("storage", {"seats": "vault, vault-2"}, "vault-3"),
        ("storage_port", {"seats": "1"}, "rj45"),
        ("storage_port", {"seats": "2"}, "sfp+"),
        ("storage_rate", {"storage_port": "rj45"}, "10G"),
        ("office_subnet", {"wifi": "yes"}, "192.168.1.0/24"),
        ("office_subnet", {"wifi": "no"}, "unknown"),
    ],
)
def test_a_default_follows_from_earlier_answers(key: str, typed: dict[str, str], expected: str) -> None:
    assert expected == BY_KEY[key].default_text(taken(**typed))


@pytest.mark.parametrize(
    ("key", "typed", "expected"),
    [
        ("switch", {"seats": "3"}, True),
        ("switch", {"seats": "4"}, False),
        ("storage_port", {"seats": "1"}, True),
        ("storage_port", {"seats": "1", "walls": "6A"}, False),
        ("storage_port", {"seats": "2", "walls": "6A"}, True),
        ("storage_rate", {}, False),
        ("storage_rate", {"storage_port": "rj45"}, True),
        ("drive_size", {}, False),
        ("drive_read", {"drives": "4"}, True),
        ("layout", {"drives": "4"}, True),
        ("office_subnet", {"wifi": "no"}, False),
        ("name", {}, True),
    ],
)
def test_what_can_have_only_one_answer_is_not_asked(key: str, typed: dict[str, str], expected: bool) -> None:
    assert expected is BY_KEY[key].worthwhile(taken(**typed))


@pytest.mark.parametrize(("switch", "end"), [("yes", "the switch"), ("no", "the storage")])
def test_a_distance_is_asked_from_each_room_to_the_end_of_its_cables(switch: str, end: str) -> None:
    wording = BY_KEY["distances"].wording(taken(seats="2", rooms="loft, {bay}", switch=switch))

    assert f"How far is it from loft, {{bay}} to {end}, along the way a cable takes?" == wording
