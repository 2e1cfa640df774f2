"""What fits into a worksheet, and how wide it stands there."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

from netaudit.report.bill.sheet import Cell, Column, Sheet
from netaudit.report.bill.workbook.cells import (
    CHARACTERS_AT_MOST,
    CUT,
    ROWS_AT_MOST,
    WIDTH_LEAST,
    WIDTH_MOST,
    column_width,
    fitting,
    legal,
    lines_in,
    number_format,
    text_width,
)


def test_a_worksheet_and_a_cell_hold_what_the_format_says() -> None:
    """Excel specifications and limits (support.microsoft.com): 1,048,576 rows, 32,767 characters a cell."""
    assert (1_048_576, 32_767) == (ROWS_AT_MOST, CHARACTERS_AT_MOST)


def test_rows_that_do_not_fit_are_counted_in_the_last_one() -> None:
    sheet = Sheet("labels", "Labels", (Column("cable"), Column("end")), tuple((f"C{n}", "to") for n in range(10)))
    last = ("6 more rows do not fit in a worksheet: take this sheet as CSV", None)

    assert (*sheet.rows[:4], last) == fitting(sheet, 6).rows
    assert sheet == fitting(sheet, 11)
    assert 10 == len(fitting(sheet, 11).rows)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a\0b\x1bc", "a␀b␛c"), ("a\r\nb\rc", "a\nb\nc"), ("a\tb", "a\tb"), ("\ufffe\uffff\ud800", "\ufffd" * 3),
        ("שלום 日本 🎞", "שלום 日本 🎞"), ("_x0041_", "_x0041_"),
    ],
)  # fmt: skip
def test_what_xml_has_no_place_for_is_shown_by_its_picture(text: str, expected: str) -> None:
    """XML 1.0, production 2: no control character but tab, line feed and carriage return, no surrogate, no U+FFFE."""
    assert expected == legal(text)


@given(st.text(st.characters(exclude_categories=())))
def test_no_text_keeps_a_character_that_another_writer_of_workbooks_refuses(text: str) -> None:
    assert None is ILLEGAL_CHARACTERS_RE.search(legal(text))
    legal(text).encode()


@pytest.mark.parametrize("char", ["x", "é", "日", "🎞"])
def test_a_text_too_long_for_a_cell_is_cut_where_everybody_sees_it(char: str) -> None:
    per_char = len(char.encode("utf-16-le")) // 2
    fits = char * (CHARACTERS_AT_MOST // per_char)
    cut = legal(fits + char)

    assert fits == legal(fits)
    assert cut.endswith(char + CUT)
    assert CHARACTERS_AT_MOST - 1 <= len(cut.encode("utf-16-le")) // 2 <= CHARACTERS_AT_MOST


@pytest.mark.parametrize(("text", "expected"), [("abc", 3), ("日本", 4), ("e\u0301", 1), ("שלום", 4), ("", 0)])
def test_wide_characters_count_twice_and_combining_ones_not_at_all(text: str, expected: int) -> None:
    """Unicode Standard Annex 11, East Asian Width."""
    assert expected == text_width(text)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("length [m]", "0.00"),
        ("sum", "#,##0.00##"),
        ("price", "#,##0.00##"),
        ("quantity", "General"),
        ("rate [Gb/s]", "General"),
        ("rate [MB/s]", "General"),
    ],
)
def test_numbers_are_shown_by_what_they_are(name: str, expected: str) -> None:
    assert expected == number_format(Column(name, number=True))


@pytest.mark.parametrize(
    ("column", "cells", "expected"),
    [
        (Column("end"), ["to"], WIDTH_LEAST),
        (Column("cable"), ["x" * 64], WIDTH_MOST),
        (Column("cable"), ["x" * 20, None, "y"], 22),
        (Column("text"), ["short\n" + "x" * 20], 22),
        (Column("sum", number=True), [Decimal("123456.5")], len("123,456.5000") + 2),
        (Column("left in box [m]", number=True), [1.0], len("left in box [m]") + 4),
        (Column("seen"), [None], 18),
        (Column("note"), ["seen"], WIDTH_LEAST),
    ],
)
def test_a_column_is_as_wide_as_what_it_holds_within_bounds(column: Column, cells: list[Cell], expected: int) -> None:
    assert expected == column_width(column, cells)


@pytest.mark.parametrize(
    ("text", "expected"), [("", 1), ("x" * 58, 1), ("x" * 59, 2), ("a\nb", 2), ("a\n\n" + "x" * 117, 5)]
)
def test_lines_are_counted_as_they_wrap(text: str, expected: int) -> None:
    assert expected == lines_in(text, WIDTH_MOST)
