"""Problems are told in file order, bounded, with the nearest right spelling."""

from __future__ import annotations

import pytest

from netaudit.plan.reading.problems import ENOUGH, TOLD, Problems, StoppedError
from netaudit.plan.reading.raw import Positions


def test_problems_are_told_in_the_order_of_the_file() -> None:
    problems = Problems("plan.yaml")
    problems.positions = Positions("a\nb\nc\n")
    for index in (4, 0, 2, 0):
        problems.add(index, (), f"at {index}")

    assert ["1:1: at 0", "1:1: at 0", "2:1: at 2", "3:1: at 4"] == [
        str(problem).partition(":")[2] for problem in problems.error().problems
    ]


def test_no_problems_are_no_error() -> None:
    assert not Problems("plan.yaml")


def test_of_many_problems_the_first_in_the_file_are_told_and_the_rest_counted() -> None:
    problems = Problems("plan.yaml")
    problems.positions = Positions("")
    for index in reversed(range(TOLD + 37)):
        problems.add(index, (), "odd")
    *told, rest = problems.error().problems

    assert list(range(1, TOLD + 1)) == [problem.column for problem in told]
    assert "plan.yaml: and 37 more problems" == str(rest)


def test_reading_stops_when_nobody_will_read_on() -> None:
    problems = Problems("plan.yaml")
    for index in range(ENOUGH - 1):
        problems.add(index, (), "odd")
    with pytest.raises(StoppedError):
        problems.add(ENOUGH, (), "odd")

    assert f"plan.yaml: and at least {ENOUGH - TOLD} more problems" == str(problems.error().problems[-1])


def test_a_problem_that_stands_alone_hides_the_others() -> None:
    problems = Problems("plan.yaml")
    problems.add(0, (), "hidden")
    with pytest.raises(StoppedError):
        problems.stop_alone(1, "alone")

    assert "plan.yaml:1:2: alone" == str(problems.error())


def test_the_nearest_right_spelling_is_offered() -> None:
    problems = Problems("plan.yaml")
    problems.add(0, ("a",), "no 'cut-q'", "cut-q", ("vault", "cut-1"))

    assert "plan.yaml:1:1: a: no 'cut-q'; did you mean 'cut-1'?" == str(problems.error())


def test_a_problem_without_a_wrong_word_has_no_hint() -> None:
    problems = Problems("plan.yaml")
    problems.add(0, (), "no such")

    assert "plan.yaml:1:1: no such" == str(problems.error())


def test_a_file_name_with_control_characters_is_escaped() -> None:
    problems = Problems("a\nb.yaml")
    problems.add(0, (), "odd")

    assert "a\\nb.yaml:1:1: odd" == str(problems.error())
