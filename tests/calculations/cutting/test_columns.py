"""Every load that a cheaper packing could use: none missed, none that cannot."""

from __future__ import annotations

from fractions import Fraction

import pytest
from cuttings import never, problem

from netaudit.calculations.cutting.columns import TooMany, columns_within
from netaudit.calculations.cutting.relaxation import Duals
from netaudit.calculations.cutting.watch import Watch


def test_without_any_bound_every_full_load_is_listed() -> None:
    """From 6, 4, 4 and 3 a box of 10 takes 6 + 4, 6 + 3, 4 + 4 or 4 + 3, and then nothing more; 6 alone is not full."""
    asked = problem(10, 6, 4, 4, 3)
    with Watch(60.0, never) as watch:
        loads = columns_within(asked, Duals((0, 0, 0), Fraction(1)), 5, watch)
    assert [(0, 1), (0, 2), (1, 1), (1, 2)] == [load.pattern for load in loads]


def test_loads_that_waste_more_than_may_be_wasted_are_not_listed() -> None:
    """Worth their length, 6, 4, 4, 3 and 3 are worth two boxes of 10: only full boxes are left."""
    asked = problem(10, 6, 4, 4, 3, 3)
    with Watch(60.0, never) as watch:
        loads = columns_within(asked, Duals((6, 4, 3), Fraction(10)), 2, watch)
    assert [(0, 1), (1, 2, 2)] == [load.pattern for load in loads]


def test_more_loads_than_can_be_listed_are_told() -> None:
    asked = problem(10_000, *range(100, 400))
    with Watch(60.0, never) as watch, pytest.raises(TooMany):
        columns_within(asked, Duals((0,) * 300, Fraction(1)), 5, watch)


def test_boxes_with_too_many_runs_are_told() -> None:
    with Watch(60.0, never) as watch, pytest.raises(TooMany):
        columns_within(problem(1000, 1), Duals((0,), Fraction(1)), 5, watch)
