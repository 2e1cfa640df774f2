"""Whole boxes from parts of boxes."""

from __future__ import annotations

from cuttings import never, problem, triplets

from netaudit.calculations.cutting.best import Best
from netaudit.calculations.cutting.dive import dive, surest
from netaudit.calculations.cutting.exact import started
from netaudit.calculations.cutting.problem import cost_of
from netaudit.calculations.cutting.quick import first_packing, quick_bound
from netaudit.calculations.cutting.watch import Watch


def test_loads_that_are_taken_as_a_whole_are_fixed_and_their_runs_are_left_no_more() -> None:
    asked = problem(100, 50, 50, 50, 50, 30, 30)
    left = list(asked.counts)
    fixed = surest(asked, [(0.5, asked.load((1, 1))), (2.0, asked.load((0, 0)))], left)

    assert [(0, 0), (0, 0)] == [load.pattern for load in fixed]
    assert [0, 2] == left


def test_of_parts_alone_the_largest_is_fixed_once() -> None:
    asked = problem(100, 50, 50, 30, 30)
    left = list(asked.counts)
    fixed = surest(asked, [(0.4, asked.load((0, 0))), (0.6, asked.load((1, 1)))], left)

    assert [(1, 1)] == [load.pattern for load in fixed]
    assert [2, 0] == left


def test_a_dive_finds_what_the_quick_ways_do_not() -> None:
    asked = problem(1000, *triplets(seed=0, boxes=20))
    first = first_packing(asked)
    best = Best(first, quick_bound(asked), lambda *_: None)
    with Watch(60.0, never) as watch:
        dive(started(asked, first, watch), best, 1, watch)

    assert len(first) > best.cost == cost_of(best.packing)
    assert sum(asked.counts) == sum(len(load.pattern) for load in best.packing)
