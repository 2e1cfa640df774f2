"""Kinds taken together: shorter runs bound the truth from below, longer ones can be cut in truth."""

from __future__ import annotations

import random

from cuttings import BOX_MM, cut_all, problem, unpriced

from netaudit.calculations.cutting.grouping import MOST_GROUPS, groups_of, lengthened, shortened, spelled_out
from netaudit.calculations.cutting.quick import first_packing

CHANCE = random.Random(4)  # noqa: S311 - the same runs every time
RUNS = [CHANCE.randint(60_000, 150_000) for _ in range(700)]


def test_groups_hold_every_kind_once_in_order() -> None:
    asked = problem(BOX_MM, *RUNS)
    groups = groups_of(asked)
    assert list(range(len(asked.lengths))) == [kind for group in groups for kind in group]
    assert len(groups) <= MOST_GROUPS


def test_a_packing_of_lengthened_runs_is_one_of_the_runs_themselves() -> None:
    asked = problem(BOX_MM, *RUNS)
    groups = groups_of(asked)
    longer = lengthened(asked, groups)
    packing = spelled_out(asked, groups, first_packing(longer))
    assert sorted(RUNS) == sorted(asked.lengths[kind] for load in packing for kind in load.pattern)
    assert all(asked.used(load.pattern) <= BOX_MM for load in packing)
    assert shortened(asked, groups).total < asked.total < longer.total


def test_hundreds_of_long_runs_come_close_to_the_bound() -> None:
    """The longest first alone needs 8 in a hundred more than the volume; groups leave less than 3."""
    cutting = cut_all(RUNS, unpriced(BOX_MM), limit_s=60.0)
    assert list(range(len(RUNS))) == sorted(run for box in cutting.boxes for run in box.runs)
    assert 100 * len(cutting.boxes) < 103 * cutting.lower_bound
