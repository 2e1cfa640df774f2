"""Sheets as CSV, read back by Python's own reader."""

from __future__ import annotations

import csv
import io
from decimal import Decimal

import pytest
from bills import HOSTILE, bills, full_bill
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.model.bill import Bill
from netaudit.report.bill.formulas import is_formula
from netaudit.report.bill.sheet import Cell, Column, Sheet
from netaudit.report.bill.sheets.every import sheets
from netaudit.report.bill.table_csv import as_csv


def csv_rows(sheet: Sheet) -> list[list[str]]:
    """The rows that Python's reader finds in the CSV of a sheet, the header among them."""
    return list(csv.reader(io.StringIO(as_csv(sheet), newline=""), strict=True))


def column_of(*cells: Cell) -> Sheet:
    """A sheet of one column beside an empty one, so that no row is a blank line."""
    return Sheet("labels", "Labels", (Column("text"), Column("empty")), tuple((cell, None) for cell in cells))


def test_a_sheet_is_a_header_and_lines_that_end_as_the_standard_says() -> None:
    """RFC 4180, section 2, rules 1, 3 and 4: CR LF after each record, a header of the same format."""
    expected = "text,empty\r\nC01,\r\n3,\r\n"

    assert expected == as_csv(column_of("C01", 3))


def test_separators_quotes_and_line_breaks_are_quoted() -> None:
    """RFC 4180, section 2, rules 6 and 7, with its own examples of a broken and a doubly quoted field."""
    expected = 'text,empty\r\n"b\r\nbb",\r\n"b""bb",\r\n"a,b",\r\n"a;b",\r\n'

    assert expected == as_csv(column_of("b\r\nbb", 'b"bb', "a,b", "a;b"))


@pytest.mark.parametrize(
    ("number", "expected"),
    [
        (3, "3"), (3.0, "3"), (0.1, "0.1"), (304.8, "304.8"), (0.000001, "0.000001"), (1e16, "10000000000000000"),
        (Decimal("7.20"), "7.20"), (Decimal("1E+3"), "1000.00"), (Decimal("0E-8"), "0.00000000"), (Decimal("57.5"), "57.50"),
        (Decimal("41.355"), "41.355"), (10**20, "1" + "0" * 20),
        (-1.5, "-1.5"),
    ],
)  # fmt: skip
def test_a_number_is_plain_with_a_point_and_money_has_two_decimals_at_least_and_none_cut_off(
    number: Cell, expected: str
) -> None:
    assert [expected, ""] == csv_rows(column_of(number))[1]


def test_unknown_is_empty() -> None:
    assert ["", ""] == csv_rows(column_of(None))[1]


def test_text_that_looks_like_a_formula_has_an_apostrophe_before_it() -> None:
    expected = [f"'{name}" if is_formula(name) else name for name in HOSTILE]

    assert expected == [row[0] for row in csv_rows(column_of(*HOSTILE))[1:]]
    assert 10 == sum(map(is_formula, HOSTILE))


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_no_cell_is_a_formula_whatever_separator_a_spreadsheet_takes(separator: str) -> None:
    texts = ["a;=1+1", "a\t=1+1", 'a,"=1+1', "a;b;=1+1", *HOSTILE]
    reader = csv.reader(io.StringIO(as_csv(column_of(*texts)), newline=""), delimiter=separator)

    assert [] == [cell for row in reader for cell in row if is_formula(cell.removeprefix("'")) and cell[0] != "'"]


@given(st.lists(st.text(), min_size=1))
@settings(deadline=None)
def test_every_text_comes_back_once_its_apostrophe_is_taken_off(texts: list[str]) -> None:
    cells = [row[0] for row in csv_rows(column_of(*texts))[1:]]
    meant = [cell[1:] if cell.startswith("'") and is_formula(cell[1:]) else cell for cell in cells]

    assert texts == meant
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠"))]


@given(bills())
@settings(max_examples=40, deadline=None)
def test_every_sheet_comes_back_with_all_its_rows(bill: Bill) -> None:
    for sheet in (*sheets(bill), *sheets(full_bill())):
        rows = csv_rows(sheet)

        assert [column.name for column in sheet.columns] == rows[0]
        assert len(sheet.rows) == len(rows) - 1
        for row, cells in zip(sheet.rows, rows[1:], strict=True):
            assert [cell is None or cell == "" for cell in row] == [cell == "" for cell in cells]
            numbers = [
                (cell, read) for cell, read in zip(row, cells, strict=True) if isinstance(cell, int | float | Decimal)
            ]
            assert [Decimal(str(cell)) for cell, _ in numbers] == [Decimal(read) for _, read in numbers]
