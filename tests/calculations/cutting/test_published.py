"""Sets of runs whose fewest boxes are published, or follow from how they were made."""

from __future__ import annotations

import random
from decimal import Decimal
from pathlib import Path

import pytest
from cuttings import BOX_MM, by_pairs, cut_all, paid, problem, triplets, unpriced

from netaudit.calculations.cutting import BoxSize
from netaudit.calculations.cutting.bounds import fewest_boxes
from netaudit.calculations.cutting.heuristics import best_fit_decreasing

U120_00 = Path(__file__).parent / "falkenauer_u120_00.txt"
"""Falkenauer, Journal of Heuristics 2 (1996); source and licence stand in the file beside it."""


def test_falkenauers_first_set_needs_its_published_48_boxes() -> None:
    count, box, *runs = map(int, U120_00.read_text(encoding="utf-8").split())
    cutting = cut_all(runs, unpriced(box))
    assert (120, 150) == (count, box)
    assert (48, 48, True) == (len(cutting.boxes), cutting.lower_bound, cutting.proved)


@pytest.mark.parametrize("seed", range(4))
def test_sets_made_like_falkenauers_are_proved(seed: int) -> None:
    """His recipe for u120: 120 runs, uniform from 20 to 100, boxes of 150."""
    chance = random.Random(seed)  # noqa: S311 - the same runs every time
    cutting = cut_all([chance.randint(20, 100) for _ in range(120)], unpriced(150))
    assert len(cutting.boxes) == cutting.lower_bound
    assert cutting.proved


@pytest.mark.parametrize("seed", range(4))
def test_triplets_without_waste_fill_a_third_as_many_boxes(seed: int) -> None:
    """His recipe for t60: the volume bound is the optimum by the way they are made."""
    cutting = cut_all(triplets(seed, boxes=20), unpriced(1000))
    assert (20, 20, True) == (len(cutting.boxes), cutting.lower_bound, cutting.proved)


@pytest.mark.parametrize("seed", range(4))
def test_triplets_at_the_price_of_their_volume_cannot_be_cheaper(seed: int) -> None:
    """A box of 500 costs more for its length, so that only full boxes of 1000 cost what the volume does."""
    sizes = [BoxSize(500, Decimal("50.01")), BoxSize(1000, Decimal("99.99"))]
    cutting = cut_all(triplets(seed, boxes=12), sizes)
    assert (Decimal("1199.88"), True) == (cutting.price_bound, cutting.proved)
    assert Decimal("1199.88") == paid(cutting, sizes)


def test_the_witness_against_the_longest_run_first_is_cut_from_9_boxes_not_11() -> None:
    """Dosa, The tight bound of first fit decreasing is FFD(I) <= 11/9 OPT(I) + 6/9 (2007), from memory: 6 runs of 51 and
    of 26, 27 and 12 of 23 in boxes of 100 fill 9 boxes: 51 + 26 + 23 six times, 27 + 27 + 23 + 23 three times."""
    runs = [51] * 6 + [27] * 6 + [26] * 6 + [23] * 12
    quick = problem(100, *runs)
    assert 11 == len(best_fit_decreasing(quick, quick.largest))
    cutting = cut_all(runs, unpriced(100))
    assert (9, 9, True) == (len(cutting.boxes), cutting.lower_bound, cutting.proved)


def test_a_set_whose_parts_need_2_boxes_and_whole_runs_3_is_proved() -> None:
    """Fieldhouse, The duality gap in trim problems, SICOP Bulletin 5 (1990), from memory: runs of 44, 33 and 12 in boxes
    of 132. Nothing but a look at every load proves the third box."""
    runs = [44] * 2 + [33] * 3 + [12] * 6
    asked = problem(132, *runs)
    assert 2 == fewest_boxes(asked)
    cutting = cut_all(runs, unpriced(132))
    assert (3, 3, True) == (len(cutting.boxes), cutting.lower_bound, cutting.proved)


def test_a_room_of_120_runs_that_all_differ_is_proved() -> None:
    chance = random.Random(1)  # noqa: S311 - the same runs every time
    runs_mm = [run_mm + 1000 for run_mm in chance.sample(range(5_000, 90_000), 120)]
    assert cut_all(runs_mm, unpriced(BOX_MM)).proved


def test_long_runs_that_all_differ_are_proved() -> None:
    """Two or three runs to a box are harder than six."""
    chance = random.Random(1)  # noqa: S311 - the same runs every time
    cutting = cut_all([chance.randint(600, 1500) * 100 for _ in range(60)], unpriced(BOX_MM))
    assert len(cutting.boxes) == cutting.lower_bound
    assert cutting.proved


def test_tens_of_thousands_of_runs_with_many_repeats_are_proved() -> None:
    chance = random.Random(1)  # noqa: S311 - the same runs every time
    runs_mm = [chance.choice([47_000, 52_300, 61_000, 83_000, 100_500]) for _ in range(20_000)]
    cutting = cut_all(runs_mm, unpriced(BOX_MM))
    assert list(range(20_000)) == sorted(run for box in cutting.boxes for run in box.runs)
    assert cutting.proved


def test_a_box_longer_than_any_cable_is_no_burden() -> None:
    cutting = cut_all([10**12 - 7, 10**12 // 2 + 3, 10**12 // 3, 17], unpriced(10**12))
    assert (2, True) == (len(cutting.boxes), cutting.proved)


def test_ten_thousand_runs_that_all_differ_fill_all_boxes_but_one_to_the_millimetre() -> None:
    """Joined, they would leave less than 6 m of 1592 boxes: the longest first needs 1594."""
    chance = random.Random(3)  # noqa: S311 - the same runs every time
    cutting = cut_all([chance.randint(5_000, 90_000) + 1000 for _ in range(10_000)], unpriced(BOX_MM))
    assert (1592, 1592, True) == (len(cutting.boxes), cutting.lower_bound, cutting.proved)


@pytest.mark.parametrize("boxes", [60, 80])
def test_thirds_of_a_box_to_the_millimetre_are_found_again(boxes: int) -> None:
    """180 and 240 runs cut from full boxes: hardly any other three fill one, so that the volume bound is the optimum."""
    chance = random.Random(4)  # noqa: S311 - the same runs every time
    runs: list[int] = []
    for _ in range(boxes):
        long = chance.randint(115_000, 150_000)
        middle = chance.randint(BOX_MM // 4, (BOX_MM - long) // 2)
        runs += [long, middle, BOX_MM - long - middle]
    cutting = cut_all(runs, unpriced(BOX_MM))
    assert (boxes, boxes, True) == (len(cutting.boxes), cutting.lower_bound, cutting.proved)


@pytest.mark.parametrize("seed", range(3))
def test_never_more_boxes_than_by_the_longest_first_with_the_pair_that_fills_its_box_best(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 - the same runs every time
    runs = [chance.randint(20_000, 110_000) for _ in range(600)]
    assert len(cut_all(runs, unpriced(BOX_MM)).boxes) <= by_pairs(runs, BOX_MM)
