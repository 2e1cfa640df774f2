"""Lengths in reports."""

from __future__ import annotations

import pytest

from netaudit.report.bill.rounding import length_m


@pytest.mark.parametrize(
    ("value_m", "expected"),
    [(None, "None"), (0.1 + 0.2, "0.3"), (-1e-9, "0.0"), (304.8, "304.8"), (0.0000014, "1e-06")],
)
def test_a_length_is_rounded_to_a_micrometre_and_has_no_negative_zero(value_m: float | None, expected: str) -> None:
    assert expected == str(length_m(value_m))
