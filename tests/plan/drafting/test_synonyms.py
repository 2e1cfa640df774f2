"""Synonyms: what people write is taken for the one spelling that a plan has."""

from __future__ import annotations

import pytest

from netaudit.model.plan import COPPER_CATEGORIES
from netaudit.plan.drafting.interview import answers_in
from netaudit.plan.drafting.synonyms import NUMBERS, category_word, spelt, system_word


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        *((text, "macos") for text in ("mac", "macOS", "Mac OS", "Mac", "osx", "OS X", "Mac OS X", "macOS 15.2", "osx10")),
        *((text, "windows") for text in ("win", "Windows", "WINDOWS", "Windows 11", "win10", "windows 8.1")),
        *((text, "linux") for text in ("Linux", "LINUX")),
        ("Unknown", "unknown"),
    ],
)  # fmt: skip
def test_a_system_is_known_by_its_usual_names_and_versions(written: str, expected: str) -> None:
    assert expected == system_word(written)


@pytest.mark.parametrize(
    "text", ["machine", "macoss", "winter", "windowsy", "windows 11 x", "windows  11", "11", "linux 6", ""]
)
def test_what_is_no_system_stays_as_it_is(text: str) -> None:
    assert text == system_word(text)


@pytest.mark.parametrize("category", COPPER_CATEGORIES)
@pytest.mark.parametrize("before", ["", "cat", "Cat ", "CAT-", "cat.", "category ", "Category"])
def test_every_category_is_known_with_the_word_before_it_and_in_any_case(category: str, before: str) -> None:
    for text in (category, category.lower(), category.upper()):
        assert category == category_word(before + text, COPPER_CATEGORIES)


@pytest.mark.parametrize("text", ["cat", "cat  6", "cat9", "Cat 5f", "kat6", "category", "6 A"])
def test_what_is_no_category_stays_as_it_is(text: str) -> None:
    assert text == category_word(text, COPPER_CATEGORIES)


def test_numbers_are_written_out_from_one_to_twelve() -> None:
    assert list(range(1, 13)) == list(NUMBERS.values())
    assert ("one", "five", "twelve") == tuple(NUMBERS)[:1] + tuple(NUMBERS)[4:5] + tuple(NUMBERS)[-1:]


def test_a_word_is_spelt_as_it_is_known() -> None:
    assert ("sfp+", "rj45", "RJ") == tuple(spelt(text, ("sfp+", "rj45")) for text in ("SFP+", "Rj45", "RJ"))


@pytest.mark.parametrize(("word", "count"), NUMBERS.items())
def test_a_number_of_seats_may_be_written_out(word: str, count: int) -> None:
    for text in (word, word.capitalize(), f" {word} "):
        assert [f"cut-{nth}" for nth in range(1, count + 1)] == [
            seat.name for seat in answers_in(f"seats: '{text}'", "x").seats
        ]


def test_number_words_beside_others_are_names() -> None:
    assert ["one", "two"] == [seat.name for seat in answers_in("seats: one, two", "x").seats]


def test_every_question_of_a_choice_takes_them() -> None:
    answers = answers_in(
        "{seats: two, systems: 'Windows 11, Mac', walls: Cat 6a, storage_port: RJ45, drives: 8, layout: Mirror}", "x"
    )

    assert ["windows", "macos"] == [seat.system for seat in answers.seats]
    assert ["6A"] == [run.wall for run in answers.runs.values()]
    assert ("rj45", "mirror") == (answers.storage_port, answers.disks and answers.disks.layout)
    assert [None] == [run.wall for run in answers_in("walls: Nothing", "x").runs.values()]
    assert ["unknown"] == [run.wall for run in answers_in("walls: Unknown", "x").runs.values()]
    assert [None] == [seat.system for seat in answers_in("{seats: 1, systems: UNKNOWN}", "x").seats]
    assert "sfp+" == answers_in("storage_port: SFP+", "x").storage_port
