"""Ways to cut that are good without a claim: what they promise, they keep."""

from __future__ import annotations

from cuttings import never, problem
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting.heuristics import COARSEST, best_fit_decreasing, filled, fullest
from netaudit.calculations.cutting.problem import Size
from netaudit.calculations.cutting.watch import Watch


def test_a_run_goes_where_it_leaves_the_least_room() -> None:
    """60 into a box, 50 into another; 40 fills the first, though the second has room too."""
    asked = problem(100, 60, 50, 40)
    assert ((0, 2), (1,)) == best_fit_decreasing(asked, asked.largest)


def test_a_box_is_filled_as_full_as_it_gets() -> None:
    """Beside 50: 30 + 20 fill it, while the longest that fits, 45, would not."""
    asked = problem(100, 50, 45, 30, 20)
    assert (0, 2, 3) == fullest(asked, [0, 1, 2, 3], [1, 1, 1, 1], asked.largest, COARSEST)


def test_given_boxes_that_can_be_filled_without_waste_are() -> None:
    asked = problem(100, 60, 50, 40, 30, 20)
    with Watch(60.0, never) as watch:
        packing = filled(asked, [Size(100, 1)] * 2, watch)
    assert packing is not None
    assert [(0, 2), (1, 3, 4)] == [load.pattern for load in packing]


def test_too_few_boxes_are_told() -> None:
    asked = problem(100, 60, 60)
    with Watch(60.0, never) as watch:
        assert filled(asked, [Size(100, 1)], watch) is None
        assert filled(asked, [Size(50, 1), Size(100, 1)], watch) is None


@settings(max_examples=100, deadline=None)
@given(st.lists(st.integers(1, 20_000), min_size=1, max_size=200), st.integers(1, 3))
def test_a_box_never_holds_more_than_its_length_however_coarsely_it_is_measured(runs: list[int], steps: int) -> None:
    asked = problem(20_000, *runs)
    kinds = range(len(asked.lengths))
    pattern = fullest(asked, kinds, asked.counts, asked.largest, 10**steps)
    assert asked.used(pattern) <= 20_000
    assert 0 == pattern[0]
    assert all(pattern.count(kind) <= asked.counts[kind] for kind in kinds)
