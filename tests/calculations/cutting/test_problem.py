"""Runs of equal length are one kind, and sizes that nobody would take are left out."""

from __future__ import annotations

from cuttings import problem

from netaudit.calculations.cutting.problem import Load, Problem, Size, cost_of, useful

SMALL, LARGE = Size(100, 6), Size(300, 15)


def test_lengths_add_up_run_by_run() -> None:
    asked = problem(100, 40, 40, 25)

    assert (105, 40) == (asked.total, asked.longest)
    assert 65 == asked.used((0, 1))


def test_the_longest_run_is_the_longest_that_is_there() -> None:
    assert 25 == Problem((40, 25), (0, 2), (SMALL,)).longest
    assert 0 == Problem((40,), (0,), (SMALL,)).longest


def test_a_pattern_goes_into_the_cheapest_box_that_holds_it() -> None:
    asked = Problem((60, 40), (9, 9), (SMALL, LARGE))

    assert Load(SMALL, (0, 1)) == asked.load((0, 1))
    assert Load(LARGE, (0, 0)) == asked.load((0, 0))
    assert LARGE == asked.largest


def test_a_size_that_is_no_longer_than_a_cheaper_one_is_of_no_use() -> None:
    dear = Size(90, 7)

    assert (SMALL, LARGE) == useful([LARGE, dear, SMALL])
    assert (Size(300, 5),) == useful([SMALL, LARGE, Size(300, 5)])
    assert (SMALL,) == useful([SMALL, SMALL])


def test_a_packing_costs_what_its_boxes_cost() -> None:
    assert 21 == cost_of([Load(SMALL, (0,)), Load(LARGE, (1,))])
    assert 0 == cost_of([])
