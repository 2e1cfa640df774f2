"""Loads that leave next to nothing: none missed, and what they prove."""

from __future__ import annotations

from itertools import combinations

import pytest
from cuttings import never, problem, triplets
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting.columns import TooMany
from netaudit.calculations.cutting.full_loads import exactly, full_loads, reachable
from netaudit.calculations.cutting.problem import Pattern, Problem
from netaudit.calculations.cutting.watch import Watch


def listed(asked: Problem, spare: int, most: int = 10_000) -> list[Pattern]:
    """The patterns of the full loads."""
    with Watch(60.0, never) as watch:
        return [load.pattern for load in full_loads(asked, spare, most, watch)]


def test_what_can_be_made_is_known_for_each_kind_and_the_shorter_ones() -> None:
    """Of 6, 4 and 4 in 10: nothing, 4, 6, 8 and 10; without 6: nothing, 4 and 8."""
    assert (0b10101010001, 0b100010001, 1) == reachable(problem(10, 6, 4, 4))


@settings(max_examples=100, deadline=None)
@given(st.lists(st.integers(1, 60), min_size=1, max_size=9), st.integers(0, 60))
def test_every_load_that_leaves_no_more_and_has_room_for_no_other_run_is_listed(runs: list[int], spare: int) -> None:
    asked = problem(60, *runs)
    kinds = [kind for kind, count in enumerate(asked.counts) for _ in range(count)]
    expected = set()
    for size in range(len(runs) + 1):
        for places in combinations(range(len(runs)), size):
            room = 60 - sum(asked.lengths[kinds[place]] for place in places)
            others = [asked.lengths[kinds[place]] for place in range(len(runs)) if place not in places]
            if 0 <= room <= spare and min(others, default=61) > room:
                expected.add(tuple(kinds[place] for place in places))

    assert sorted(expected) == sorted(listed(asked, spare))


@pytest.mark.parametrize(
    "asked",
    [problem(1000, *range(100, 400)), problem(1000, 1), problem(10**12, 10**11)],
    ids=["too many loads", "too many runs in a box", "too long a box"],
)
def test_what_cannot_be_listed_is_told(asked: Problem) -> None:
    with pytest.raises(TooMany):
        listed(asked, 500, 100)


def test_triplets_without_waste_are_found_where_almost_no_other_load_is_full() -> None:
    asked = problem(1000, *triplets(seed=5, boxes=20))
    with Watch(60.0, never) as watch:
        found, impossible = exactly(asked, 20, 10_000, 300, watch)

    assert found is not None
    assert not impossible
    assert (20, sum(asked.counts)) == (len(found), sum(len(load.pattern) for load in found))


def test_too_few_boxes_are_certain_and_too_many_loads_leave_the_question_open() -> None:
    """Fieldhouse's runs, as in the published sets, need a third box though by volume two would do."""
    fieldhouse = problem(132, *[44] * 2, *[33] * 3, *[12] * 6)
    with Watch(60.0, never) as watch:
        assert (None, True) == exactly(fieldhouse, 1, 10_000, 300, watch)
        assert (None, True) == exactly(fieldhouse, 2, 10_000, 300, watch)
        assert (None, False) == exactly(problem(1000, *triplets(seed=5, boxes=20)), 20, 1, 300, watch)
