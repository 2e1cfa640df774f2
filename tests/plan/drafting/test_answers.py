"""Answers: the values that a draft follows from."""

from __future__ import annotations

import dataclasses

import pytest

from netaudit.plan.drafting.answers import Run, Seat
from netaudit.plan.drafting.interview import answers_in


def test_answers_are_frozen() -> None:
    answers = answers_in("{}", "room.yaml")

    with pytest.raises(dataclasses.FrozenInstanceError):
        answers.wifi = False  # type: ignore[misc]


def test_every_room_of_a_seat_has_its_run() -> None:
    answers = answers_in(
        "{seats: 'a, b, c', rooms: 'loft, bay, loft', distances: '30 m, 10 m', walls: '6A, nothing'}", "x"
    )

    assert {"loft": Run(30.0, "6A"), "bay": Run(10.0, None)} == answers.runs
    assert (Seat("a", "macos", 10**10, "loft"), "bay", "loft") == (
        answers.seats[0], answers.seats[1].room, answers.seats[2].room,
    )  # fmt: skip
