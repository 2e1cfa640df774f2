"""The quick ways: sound bounds, packings that hold every run, and often both meet."""

from __future__ import annotations

from collections import Counter
from itertools import islice

from cuttings import never, problem, triplets
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting.problem import Packing, Problem, Size, cost_of
from netaudit.calculations.cutting.quick import choices, first_packing, quick_bound, quick_packing
from netaudit.calculations.cutting.watch import Watch

WITNESS = [51] * 6 + [27] * 6 + [26] * 6 + [23] * 12
"""First fit decreasing needs 11 boxes of 100 where 9 do: Johnson, Near-optimal bin packing algorithms (1973)."""


def cut_runs(packing: Packing) -> list[int]:
    """How often each kind is cut."""
    counted = Counter(kind for load in packing for kind in load.pattern)
    return [counted[kind] for kind in sorted(counted)]


def quick(asked: Problem, below: int) -> Packing | None:
    """The quick packing that costs less than a figure."""
    with Watch(60.0, never) as watch:
        return quick_packing(asked, below, watch)


def test_the_witness_against_first_fit_is_packed_into_nine_at_once() -> None:
    asked = problem(100, *WITNESS)
    found = quick(asked, cost_of(first_packing(asked)))

    assert 11 == len(first_packing(asked))
    assert found is not None
    assert 9 == len(found) == quick_bound(asked)


def test_nothing_is_offered_that_is_no_cheaper() -> None:
    asked = problem(100, *WITNESS)

    assert None is quick(asked, 9)


def test_choices_of_one_size_are_ever_more_boxes() -> None:
    assert [1, 2, 3] == [cost for cost, _ in islice(choices(problem(100, 40, 30)), 3)]


def test_choices_of_one_size_cost_its_price_each() -> None:
    assert [(5, (Size(100, 5),)), (10, (Size(100, 5),) * 2)] == list(
        islice(choices(Problem((60,), (1,), (Size(100, 5),))), 2)
    )


def test_the_first_packing_is_the_cheapest_of_all_sizes() -> None:
    """Two of 40 from one box of 100 at 50; from two of 50 at 30 each they would cost 60."""
    asked = Problem((40,), (2,), (Size(50, 30), Size(100, 50)))

    assert 50 == cost_of(first_packing(asked))


def test_the_cheapest_boxes_of_several_sizes_are_filled() -> None:
    """Three of 60 and three of 40 fill a box of 300 at 12; three of 100 would cost 15."""
    asked = Problem((60, 40), (3, 3), (Size(100, 5), Size(300, 12)))
    found = quick(asked, 15)

    assert found is not None
    assert 12 == cost_of(found)


def test_choices_of_several_sizes_get_ever_dearer_and_hold_the_volume() -> None:
    asked = Problem((60,), (4,), (Size(100, 6), Size(300, 15)))
    offered = list(islice(choices(asked), 5))
    costs = [cost for cost, _ in offered]

    assert sorted(costs) == costs
    assert all(sum(size.length for size in boxes) >= 240 for _, boxes in offered if boxes is not None)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(1, 100), min_size=1, max_size=25))
def test_a_first_packing_holds_every_run_and_is_never_below_the_bound(runs: list[int]) -> None:
    asked = problem(100, *runs)
    packing = first_packing(asked)

    assert list(asked.counts) == cut_runs(packing)
    assert all(asked.used(load.pattern) <= load.size.length for load in packing)
    assert quick_bound(asked) <= cost_of(packing)


def test_triplets_without_waste_are_bounded_by_their_volume() -> None:
    assert 20 == quick_bound(problem(1000, *triplets(seed=1, boxes=20)))
