"""Values of the model as cells."""

from __future__ import annotations

import pytest

from netaudit.report.bill.sheets.cells import gauge, gigabits, joined, screen, written


@pytest.mark.parametrize(
    ("rate_bit_per_s", "expected"), [(None, None), (0, 0), (100_000_000, 0.1), (2_500_000_000, 2.5), (10**10, 10)]
)
def test_a_rate_is_in_gigabits_and_unknown_is_not_nothing(rate_bit_per_s: int | None, expected: float | None) -> None:
    assert expected == gigabits(rate_bit_per_s)


def test_a_screen_is_yes_no_or_without_meaning() -> None:
    assert ["yes", "no", None] == [screen(value) for value in (True, False, None)]


def test_what_is_not_there_stays_empty() -> None:
    assert [None] * 3 == [gauge(None), joined(()), written(None)]
    assert ["26 AWG", "a, b"] == [gauge(26), joined("ab")]
