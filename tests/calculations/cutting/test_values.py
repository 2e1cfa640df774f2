"""What is asked and answered."""

from __future__ import annotations

from decimal import Decimal

from netaudit.calculations.cutting import BoxSize
from netaudit.calculations.cutting.values import CutBox


def test_a_price_that_is_not_known_is_none_and_never_nothing() -> None:
    assert BoxSize(304_800, None) != BoxSize(304_800, Decimal(0))


def test_a_box_names_its_size_and_its_runs_as_the_caller_listed_them() -> None:
    assert (1, (4, 2)) == CutBox(size=1, runs=(4, 2))
