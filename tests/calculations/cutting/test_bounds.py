"""Bounds against examples that can be checked by hand, and against what is really needed."""

from __future__ import annotations

from itertools import islice

import pytest
from cuttings import problem
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting.bounds import covers, fewest_boxes, halves_bound, rounding_bound, volume_bound
from netaudit.calculations.cutting.heuristics import best_fit_decreasing
from netaudit.calculations.cutting.problem import Problem, Size

BOX = 60


def test_the_volume_bound_joins_all_runs() -> None:
    assert 2 == volume_bound(problem(10, 7, 7, 6))
    assert 3 == volume_bound(problem(10, 7, 7, 7))


def test_runs_of_more_than_half_a_box_need_one_each() -> None:
    assert 3 == halves_bound(problem(10, 6, 6, 6))
    assert 2 == halves_bound(problem(10, 5, 5, 5))


def test_short_runs_beside_long_ones_are_counted_by_their_volume() -> None:
    """Two runs of 7 leave 3 each, in which no 4 fits: three of 4 need two boxes of their own by volume."""
    assert 3 == volume_bound(problem(10, 7, 7, 4, 4, 4))
    assert 4 == halves_bound(problem(10, 7, 7, 4, 4, 4))


def test_rounding_knows_how_many_runs_of_a_third_fit() -> None:
    """Runs of a little over a third of a box go two to a box: 5 of 34 need 3 boxes of 100, by volume only 2."""
    runs = problem(100, *[34] * 5)
    assert (2, 2, 3) == (volume_bound(runs), halves_bound(runs), rounding_bound(runs))


def test_a_long_run_takes_the_room_beside_it_from_the_short_ones() -> None:
    """Beside 6 there is room for 4 of the 5 that are short: the last needs a second box."""
    assert 2 == halves_bound(problem(10, 6, 4, 1))


def test_rounding_counts_more_than_halves_one_by_one_and_exact_parts_as_parts() -> None:
    """Three of 6 in 10; five of 34 go two to a box of 99 and leave no room for a 33, of which two more fill half a box."""
    assert 3 == rounding_bound(problem(10, 6, 6, 6))
    assert 4 == rounding_bound(problem(99, *[34] * 5, 33, 33))


def test_the_highest_bound_counts() -> None:
    """By volume, by halves, by rounding."""
    thirds, halves, exact = problem(100, *[34] * 5), problem(10, 7, 7, 4, 4, 4), problem(10, 7, 7, 7)

    assert [3, 4, 3] == [fewest_boxes(asked) for asked in (thirds, halves, exact)]


@settings(max_examples=100, deadline=None)
@given(st.lists(st.integers(1, BOX), max_size=30))
def test_no_bound_is_above_what_the_longest_first_needs(runs: list[int]) -> None:
    asked = problem(BOX, *runs)
    needed = len(best_fit_decreasing(asked, asked.largest))
    assert max(volume_bound(asked), halves_bound(asked), rounding_bound(asked)) <= needed


def test_covers_come_the_cheapest_first() -> None:
    asked = Problem((10,), (25,), (Size(50, 30), Size(100, 50)))
    expected = [(130, (1, 2)), (140, (3, 1)), (150, (0, 3)), (150, (5, 0))]
    assert expected == list(islice(covers(asked), 4))


@pytest.mark.parametrize("total", [1, 49, 50, 51, 250, 999])
def test_the_first_cover_is_the_cheapest_of_all(total: int) -> None:
    sizes = (Size(30, 20), Size(50, 31), Size(100, 58))
    every = [
        20 * a + 31 * b + 58 * c
        for a in range(35) for b in range(21) for c in range(11)
        if 30 * a + 50 * b + 100 * c >= total
    ]  # fmt: skip
    assert min(every) == next(covers(Problem((1,), (total,), sizes)))[0]


def test_the_cheapest_cover_is_first_though_the_smallest_box_is_dear() -> None:
    """29 of length: two of 16 at 13 each; one of 30 costs 27, four of 8 cost 44."""
    asked = Problem((1,), (29,), (Size(8, 11), Size(16, 13), Size(30, 27)))
    assert (26, (0, 2, 0)) == next(covers(asked))


def test_a_search_for_covers_that_grows_too_long_ends_with_a_bound() -> None:
    asked = Problem((1,), (10**9,), (Size(999, 998), Size(1001, 1000)))
    *_, (cost, boxes) = covers(asked)
    assert boxes is None
    assert 998 * 10**9 // 999 <= cost <= 10**9
