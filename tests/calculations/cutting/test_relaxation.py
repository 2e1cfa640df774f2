"""The bound from parts of boxes: proved by worths that no box can exceed."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from cuttings import never, problem, triplets
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting import relaxation
from netaudit.calculations.cutting.exact import started
from netaudit.calculations.cutting.problem import Problem, Size
from netaudit.calculations.cutting.quick import first_packing
from netaudit.calculations.cutting.relaxation import Duals, duals, generate, whole_worth
from netaudit.calculations.cutting.watch import Watch


def bound_of(asked: Problem, step: int = 1) -> Duals:
    """The worths of the relaxation, patterns looked for in steps."""
    with Watch(60.0, never) as watch:
        master = started(asked, first_packing(asked), watch)
        return duals(asked, whole_worth(generate(master, asked.counts, step, watch)), watch)


def test_parts_of_boxes_do_with_fewer_than_whole_ones() -> None:
    """Three runs of 5 in boxes of 10: one and a half; of 4: still two to a box, though their volume is less."""
    assert Fraction(3, 2) == bound_of(problem(10, 5, 5, 5)).cost([3])
    assert Fraction(3, 2) == bound_of(problem(10, 4, 4, 4)).cost([3])


def test_triplets_without_waste_need_their_volume() -> None:
    asked = problem(1000, *triplets(seed=3, boxes=10))
    assert 10 - Fraction(1, 10**6) < bound_of(asked).cost(asked.counts) <= 10


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(5, 60), min_size=1, max_size=6),
    st.tuples(st.integers(0, 90), st.integers(91, 200)),
    st.integers(1, 4),
    st.sampled_from([7, 13, 60]),
)
def test_no_box_is_worth_more_than_it_costs(
    runs: list[int], costs: tuple[int, int], step: int, finest_steps: int
) -> None:
    """Whatever the solver answered, and however coarsely boxes were measured: every box there is keeps to it."""
    one = problem(60, *runs)
    asked = Problem(one.lengths, one.counts, (Size(35, costs[0]), Size(60, costs[1])))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(relaxation, "FINEST_STEPS", finest_steps)
        proof = bound_of(asked, step)
    for times in product(*(range(count + 1) for count in asked.counts)):
        used = sum(n * length for n, length in zip(times, asked.lengths, strict=True))
        worth = sum(n * w for n, w in zip(times, proof.worth, strict=True))
        assert all(worth <= proof.scale * size.cost for size in asked.sizes if used <= size.length)


def test_a_box_that_costs_nothing_leaves_nothing_known() -> None:
    asked = Problem((9, 4), (1, 3), (Size(5, 0), Size(10, 7)))
    assert 0 <= bound_of(asked).cost(asked.counts) <= 7
