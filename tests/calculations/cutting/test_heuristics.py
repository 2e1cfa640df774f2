"""Ways to cut that are good without a claim: what they promise, they keep."""

from __future__ import annotations

from itertools import pairwise

from cuttings import never, problem
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting.heuristics import (
    CANDIDATES,
    best_fit_decreasing,
    candidates,
    filled,
    fullest,
    measure,
    spread,
)
from netaudit.calculations.cutting.problem import Size
from netaudit.calculations.cutting.watch import Watch


def test_a_run_goes_where_it_leaves_the_least_room() -> None:
    """60 into a box, 50 into another; 40 fills the first, though the second has room too."""
    asked = problem(100, 60, 50, 40)
    assert ((0, 2), (1,)) == best_fit_decreasing(asked, asked.largest)


def test_a_box_is_filled_as_full_as_it_gets() -> None:
    """Beside 50: 30 + 20 fill it, while the longest that fits, 45, would not."""
    asked = problem(100, 50, 45, 30, 20)
    assert (0, 2, 3) == fullest(asked, [0, 1, 2, 3], [1, 1, 1, 1], asked.largest, 1)


def test_a_box_is_measured_exactly_in_steps_of_one() -> None:
    """25 + 25 are 50 and fill it; 30 + 21 are one more than it has room for."""
    halves, beyond = problem(100, 50, 25, 25), problem(100, 50, 30, 21)
    assert (0, 1, 1) == fullest(halves, [0, 1], [1, 2], halves.largest, 1)
    assert (0, 1) == fullest(beyond, [0, 1, 2], [1, 1, 1], beyond.largest, 1)


def test_of_very_many_runs_as_many_are_weighed_as_can_be_from_the_longest_to_the_shortest() -> None:
    chosen = list(spread(range(1000)))

    assert [CANDIDATES, 0, 999] == [len(set(chosen)), chosen[0], chosen[-1]]
    assert {6, 7} == {after - before for before, after in pairwise(chosen)}
    assert list(range(CANDIDATES)) == list(spread(range(CANDIDATES)))


def test_only_runs_that_fit_are_weighed_each_as_often_as_it_fits() -> None:
    asked = problem(500, *range(1, 201), 200, 90, 90)
    kinds = range(200)

    assert list(range(100, 200)) == sorted(set(candidates(asked, kinds, [1] * 200, 100)))
    assert [110] == [kind for kind in candidates(asked, kinds, asked.counts, 100) if kind == 110]
    assert 60 == candidates(problem(500, 200, *[30] * 5), [0, 1], [1, 5], 60).count(1) * 30


def test_a_run_as_long_as_its_box_fills_it() -> None:
    asked = problem(100, 100, 60)
    with Watch(60.0, never) as watch:
        packing = filled(asked, [Size(100, 1)] * 2, watch)
    assert packing is not None
    assert [(0,), (1,)] == [load.pattern for load in packing]


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


def test_room_is_measured_more_finely_the_less_of_it_is_spare() -> None:
    """100 runs: with fourfold care 400 of room to spare lets rounding cost 1 for each, 4000 lets it cost 10;
    no box is measured in fewer than 4096 steps."""
    asked = problem(1_000_000, *[10_000] * 100)

    assert [1, 1, 10, 488] == [measure(asked, [Size(1_000_000 + spare, 1)]) for spare in (0, 400, 4000, 1_000_000)]


def test_no_box_is_measured_in_more_steps_than_can_be_counted() -> None:
    asked = problem(10**12, 10**12)

    assert 10**12 // measure(asked, [asked.largest]) <= 2_000_000
