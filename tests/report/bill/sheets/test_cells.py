"""Values of the model as cells."""

from __future__ import annotations

from decimal import Decimal

import pytest

from netaudit.report.bill.sheet import Cell
from netaudit.report.bill.sheets.cells import (
    both_rates,
    gauge,
    in_words,
    joined,
    numbers,
    rate_cells,
    screen,
    text,
)


@pytest.mark.parametrize(
    ("rate_bit_per_s", "expected"),
    [
        (None, (None, None)),
        (0, (0, 0)),
        (100_000_000, (0.1, 12.5)),
        (2_500_000_000, (2.5, 312.5)),
        (10**10, (10, 1250)),
    ],
)
def test_a_rate_is_in_both_units_and_unknown_is_not_nothing(
    rate_bit_per_s: int | None, expected: tuple[float | None, float | None]
) -> None:
    assert expected == rate_cells(rate_bit_per_s)


def test_a_rate_in_words_has_both_units_and_unknown_stays_empty() -> None:
    assert ["2.5 Gb/s (312 MB/s)", None] == [both_rates(2_500_000_000), both_rates(None)]


@pytest.mark.parametrize(
    ("cell", "words"),
    [(None, ""), ("x", "x"), (3, "3"), (0.1 + 0.2, "0.3"), (Decimal("41.355"), "41.355"), (Decimal("57.5"), "57.50")],
)
def test_cells_are_written_as_people_write_them(cell: Cell, words: str) -> None:
    assert words == in_words(cell)


def test_a_screen_is_yes_no_or_without_meaning() -> None:
    assert ["yes", "no", None] == [screen(value) for value in (True, False, None)]


def test_what_is_not_there_stays_empty() -> None:
    assert [None] * 2 == [gauge(None), joined(())]
    assert ["26 AWG", "a, b"] == [gauge(26), joined("ab")]


def test_a_column_says_whether_it_holds_numbers() -> None:
    assert [True, True, False] == [column.number for column in (*numbers("order", "length [m]"), *text("what"))]
