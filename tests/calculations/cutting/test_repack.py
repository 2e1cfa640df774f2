"""Some boxes packed anew: what no rule finds at once, the same way every time."""

from __future__ import annotations

from random import Random

import pytest
from cuttings import never, problem, triplets

from netaudit.calculations.cutting.best import Best
from netaudit.calculations.cutting.problem import Packing, Problem, Size, cost_of
from netaudit.calculations.cutting.quick import first_packing, quick_bound
from netaudit.calculations.cutting.repack import RUNS_AT_ONCE, fuller, neighbours, only, repack
from netaudit.calculations.cutting.watch import Over, Watch


def repacked(asked: Problem) -> Best:
    """The best that packing anew finds, from the longest run first."""
    best = Best(first_packing(asked), quick_bound(asked), lambda *_: None)
    with Watch(60.0, never) as watch:
        repack(asked, best, best.packing, 3, watch)
    return best


def runs_of(packing: Packing) -> list[int]:
    return sorted(kind for load in packing for kind in load.pattern)


@pytest.mark.parametrize("boxes", [60, 80])
def test_triplets_of_180_and_240_runs_are_packed_without_waste(boxes: int) -> None:
    asked = problem(1000, *triplets(seed=0, boxes=boxes))
    best = repacked(asked)

    assert boxes + 3 < len(first_packing(asked))
    assert (boxes, True) == (best.cost, best.proved)
    assert runs_of(first_packing(asked)) == runs_of(best.packing)
    assert all(asked.used(load.pattern) <= 1000 for load in best.packing)


def test_the_same_boxes_are_packed_the_same_way_twice() -> None:
    asked = problem(1000, *triplets(seed=1, boxes=40))

    assert repacked(asked).packing == repacked(asked).packing


def test_where_no_box_can_be_saved_it_ends_with_what_it_had() -> None:
    """Thirds of a box and a bit go two to a box; nobody tells it so."""
    asked = problem(100, *[34] * 100)
    best = Best(first_packing(asked), 1, lambda *_: None)
    with Watch(60.0, never) as watch:
        repack(asked, best, best.packing, 2, watch)

    assert (50, False) == (best.cost, best.proved)


def test_boxes_of_several_sizes_are_packed_anew_for_a_lower_price() -> None:
    """Pairs of 60 from boxes of 120 at 10, though the packing began with a box of 100 at 9 for each."""
    asked = Problem((60,), (100,), (Size(100, 9), Size(120, 10)))
    best = Best(tuple(asked.load((0,)) for _ in range(100)), 1, lambda *_: None)
    with Watch(60.0, never) as watch:
        repack(asked, best, best.packing, 1, watch)

    assert 500 == best.cost


def test_it_can_be_stopped() -> None:
    asked = problem(1000, *triplets(seed=0, boxes=60))
    best = Best(first_packing(asked), quick_bound(asked), lambda *_: None)
    with Watch(60.0, lambda: True) as watch, pytest.raises(Over):
        repack(asked, best, best.packing, 1, watch)


def test_the_emptiest_boxes_are_always_among_those_packed_anew() -> None:
    """A box of 100 can be saved where 60 and 50 are left in two."""
    asked = problem(100, *[50] * 120, 50, 40)
    loads = [asked.load((0, 0)) for _ in range(60)] + [asked.load((0,)), asked.load((1,))]
    chosen, others = neighbours(asked, loads, Random(1))  # noqa: S311 - no secret

    assert [(1,), (0,)] == [load.pattern for load in chosen[:2]]
    assert RUNS_AT_ONCE - 1 <= sum(len(load.pattern) for load in chosen) <= RUNS_AT_ONCE
    assert sorted(loads) == sorted([*chosen, *others])


def test_a_part_knows_which_kinds_it_has() -> None:
    asked = problem(100, 50, 40, 40, 30)
    part, kinds = only(asked, [asked.load((1, 1)), asked.load((2,))])

    assert ((40, 30), (2, 1), (1, 2)) == (part.lengths, part.counts, kinds)


def test_what_is_left_is_gathered_in_one_box_and_costs_no_more() -> None:
    asked = problem(100, 50, 50, 30, 30)
    now = [asked.load((0, 1)), asked.load((0, 1))]
    with Watch(60.0, never) as watch:
        packing = fuller(asked, now, watch)

    assert packing is not None
    assert cost_of(packing) == cost_of(now)
    assert [(0, 0), (1, 1)] == [load.pattern for load in packing]
