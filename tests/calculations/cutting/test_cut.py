"""Cutting against every way there is, against the volume bound, and against itself."""

from __future__ import annotations

import random
import subprocess
import sys
from collections.abc import Sequence
from decimal import Decimal

import pytest
from cuttings import BOX_MM, cut_all, lowest, paid, triplets, unpriced
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting import BoxSize, CutBox, Cutting

BOX = 60
few_runs = st.lists(st.integers(1, BOX), max_size=7)
many_runs = st.lists(st.integers(1, BOX), max_size=40)
prices = st.decimals(min_value=0, max_value=500, places=2)
priced_sizes = st.lists(st.builds(BoxSize, st.integers(1, BOX), prices), max_size=3).flatmap(
    lambda sizes: prices.map(lambda price: [*sizes, BoxSize(BOX, price)])
)
quickly = settings(max_examples=60, deadline=None)


def assert_every_run_is_cut_once(cutting: Cutting, runs: Sequence[int], sizes: Sequence[BoxSize]) -> None:
    assert list(range(len(runs))) == sorted(run for box in cutting.boxes for run in box.runs)
    for box in cutting.boxes:
        lengths = [runs[run] for run in box.runs]
        assert sum(lengths) <= sizes[box.size].length_mm
        assert sorted(lengths, reverse=True) == lengths


def test_runs_are_cut_from_the_fewest_boxes() -> None:
    cutting = cut_all([50_000, 210_000, 90_000, 250_000, 50_000], unpriced(BOX_MM))
    expected = Cutting(
        boxes=(CutBox(0, (3, 0)), CutBox(0, (1, 2)), CutBox(0, (4,))),
        objective="fewest boxes", lower_bound=3, price_bound=None, proved=True, stopped=False,
    )  # fmt: skip
    assert expected == cutting


def test_each_box_is_replaced_by_the_smallest_size_that_holds_its_runs() -> None:
    sizes = unpriced(152_400, BOX_MM, 100_000)
    cutting = cut_all([300_000, 120_000, 80_000, 104_800, 90_000], sizes)
    assert [(1, (1, 3, 2)), (1, (0,)), (2, (4,))] == [tuple(box) for box in cutting.boxes]
    assert (3, True) == (cutting.lower_bound, cutting.proved)


def test_a_size_without_a_price_makes_the_number_of_boxes_count() -> None:
    cutting = cut_all([60, 60], [BoxSize(60, Decimal(1)), BoxSize(120, None)])
    assert "fewest boxes" == cutting.objective
    assert (CutBox(1, (0, 1)),) == cutting.boxes
    assert cutting.price_bound is None


def test_prices_decide_the_sizes_and_stay_exact() -> None:
    sizes = [BoxSize(BOX_MM, Decimal("189.10")), BoxSize(152_400, Decimal("94.50")), BoxSize(500_000, Decimal("330"))]
    cutting = cut_all([150_000, 150_000, 150_000], sizes)
    assert "lowest price" == cutting.objective
    assert [1, 1, 1] == [box.size for box in cutting.boxes]
    assert Decimal("283.50") == paid(cutting, sizes)
    assert (Decimal("283.50"), True) == (cutting.price_bound, cutting.proved)
    assert 1 == cutting.lower_bound


def test_prices_finer_than_any_coin_are_told_apart() -> None:
    sizes = [BoxSize(100, Decimal("10.0000000000000000000000000001")), BoxSize(100, Decimal("10"))]
    cutting = cut_all([100], sizes)
    assert (1, Decimal(10)) == (cutting.boxes[0].size, cutting.price_bound)


def test_boxes_that_cost_nothing_are_used_first() -> None:
    sizes = [BoxSize(100, Decimal(0)), BoxSize(200, Decimal(50))]
    cutting = cut_all([150, 90, 60, 30], sizes)
    assert Decimal(50) == paid(cutting, sizes)
    assert cutting.proved


def test_a_size_that_holds_no_run_is_never_bought_however_cheap() -> None:
    sizes = [BoxSize(50, Decimal(1)), BoxSize(100, Decimal(3))]
    cutting = cut_all([100, 100], sizes)
    assert ([1, 1], Decimal(6)) == ([box.size for box in cutting.boxes], cutting.price_bound)


def test_of_sizes_at_one_price_the_longest_is_bought() -> None:
    sizes = [BoxSize(100, Decimal(10)), BoxSize(120, Decimal(10)), BoxSize(110, Decimal(10))]
    assert [1] == [box.size for box in cut_all([90], sizes).boxes]


def test_no_run_needs_no_box() -> None:
    assert Cutting((), "fewest boxes", 0, None, proved=True, stopped=False) == cut_all([], unpriced(BOX_MM))
    assert Cutting((), "lowest price", 0, Decimal(0), proved=True, stopped=False) == cut_all(
        [], [BoxSize(5, Decimal(3))]
    )


@pytest.mark.parametrize(
    ("runs", "sizes", "message"),
    [
        ([1], [], "no size of box is given"),
        ([1], unpriced(10, 0), "a size of box must be longer than 0 mm"),
        ([0, 1], unpriced(10), "a run must be longer than 0 mm"),
        ([7, 11], unpriced(10, 5), "a run of 11 mm is longer than the largest box, 10 mm"),
        ([1], [BoxSize(10, Decimal(-1))], "the price of a box must be 0 or more"),
        ([1], [BoxSize(10, Decimal(1)), BoxSize(5, Decimal(-1))], "the price of a box must be 0 or more"),
        ([1], [BoxSize(10, Decimal("NaN"))], "the price of a box must be 0 or more"),
    ],
)
def test_what_cannot_be_cut_is_refused(runs: list[int], sizes: list[BoxSize], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        cut_all(runs, sizes)


@quickly
@given(few_runs, st.integers(1, BOX))
def test_no_way_there_is_needs_fewer_boxes(runs: list[int], smaller: int) -> None:
    sizes = unpriced(BOX, smaller)
    cutting = cut_all(runs, sizes)
    assert_every_run_is_cut_once(cutting, runs, sizes)
    assert cutting.proved
    assert lowest(runs, lambda used: Decimal(1) if used <= BOX else None) == len(cutting.boxes) == cutting.lower_bound


@quickly
@given(few_runs, priced_sizes)
def test_no_way_there_is_costs_less(runs: list[int], sizes: list[BoxSize]) -> None:
    def cheapest(used: int) -> Decimal | None:
        return min((size.price for size in sizes if size.length_mm >= used and size.price is not None), default=None)

    cutting = cut_all(runs, sizes)
    assert_every_run_is_cut_once(cutting, runs, sizes)
    assert cutting.proved
    assert lowest(runs, cheapest) == paid(cutting, sizes) == cutting.price_bound


@quickly
@given(many_runs, st.randoms(use_true_random=False), st.integers(1, BOX))
def test_boxes_keep_to_the_bounds_the_order_does_not_matter_and_more_runs_never_need_fewer(
    runs: list[int], chance: random.Random, another: int
) -> None:
    sizes = unpriced(BOX)
    cutting = cut_all(runs, sizes)
    assert_every_run_is_cut_once(cutting, runs, sizes)
    assert -(-sum(runs) // BOX) <= cutting.lower_bound <= len(cutting.boxes)
    assert cutting.proved == (cutting.lower_bound == len(cutting.boxes))
    mixed = chance.sample(runs, len(runs))
    assert len(cutting.boxes) == len(cut_all(mixed, sizes).boxes)
    assert len(cutting.boxes) <= len(cut_all([*runs, another], sizes).boxes) <= len(cutting.boxes) + 1


@quickly
@given(many_runs, priced_sizes)
def test_a_price_bound_is_never_above_the_price(runs: list[int], sizes: list[BoxSize]) -> None:
    cutting = cut_all(runs, sizes)
    assert_every_run_is_cut_once(cutting, runs, sizes)
    assert cutting.price_bound is not None
    assert cutting.price_bound <= paid(cutting, sizes)
    assert cutting.proved == (cutting.price_bound == paid(cutting, sizes))
    assert cutting.lower_bound <= len(cutting.boxes)


def test_the_same_runs_are_cut_the_same_way_twice() -> None:
    runs = triplets(seed=7, boxes=12)
    assert cut_all(runs, unpriced(1000)) == cut_all(runs, unpriced(1000))


def test_easy_cuts_load_no_solver() -> None:
    words = (
        "import sys; from netaudit.calculations.cutting import BoxSize, cut;"
        "cut([60, 40, 70], [BoxSize(100, None)], tell=print, stop=lambda: False);"
        "sys.exit('highspy' in sys.modules or 'numpy' in sys.modules)"
    )
    assert 0 == subprocess.run([sys.executable, "-c", words], check=False).returncode


def test_the_solver_writes_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    assert cut_all(triplets(seed=1, boxes=8), unpriced(1000)).proved
    assert ("", "") == tuple(capfd.readouterr())
