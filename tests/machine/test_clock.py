"""The clock and its deadlines."""

import re

import pytest

from netaudit.machine import clock
from netaudit.machine.clock import Deadline, now_s, pause, time_of_day


class Hands:
    """A clock that a test sets."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.now_s = 100.0
        self.slept_s: list[float] = []
        monkeypatch.setattr(clock.time, "monotonic", lambda: self.now_s)
        monkeypatch.setattr(clock.time, "sleep", self.slept_s.append)


@pytest.fixture
def hands(monkeypatch: pytest.MonkeyPatch) -> Hands:
    return Hands(monkeypatch)


def test_a_deadline_runs_down_and_never_below_nothing(hands: Hands) -> None:
    deadline = Deadline(2.0)
    left = []
    for hands.now_s in (100.0, 101.5, 102.0, 105.0):
        left.append((deadline.left_s, deadline.over))
    expected = [(2.0, False), (0.5, False), (0.0, True), (0.0, True)]

    assert expected == left


def test_a_wish_for_time_is_cut_to_what_is_left(hands: Hands) -> None:
    deadline = Deadline(2.0)
    hands.now_s = 101.5

    assert (0.25, 0.5) == (deadline.at_most(0.25), deadline.at_most(9.0))


def test_a_deadline_of_less_than_nothing_is_over_at_once(hands: Hands) -> None:
    assert Deadline(-1.0).over


def test_only_time_that_is_left_is_waited(hands: Hands) -> None:
    for seconds in (0.5, 0.0, -1.0):
        pause(seconds)

    assert [0.5] == hands.slept_s


def test_the_clock_never_goes_back_and_the_time_of_day_is_for_people() -> None:
    first, second = now_s(), now_s()

    assert first <= second
    assert re.fullmatch(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d", time_of_day())
