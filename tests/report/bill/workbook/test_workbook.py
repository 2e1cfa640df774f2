"""The workbook, read back by a reader of another house."""

from __future__ import annotations

import io
import re
import zipfile
from dataclasses import replace
from decimal import Decimal

import openpyxl
import pytest
from bills import HOSTILE, bills, empty_bill, full_bill
from hypothesis import given, settings
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from netaudit.model.bill import Bill
from netaudit.model.moving import BenchTest
from netaudit.report.bill.formulas import is_formula
from netaudit.report.bill.sheet import Sheet
from netaudit.report.bill.sheets.every import sheets
from netaudit.report.bill.sheets.goods import bill_sheet
from netaudit.report.bill.workbook.cells import CUT, WIDTH_LEAST, WIDTH_MOST, legal
from netaudit.report.bill.workbook.workbook import AS_OF_WRITING, as_xlsx

BELOW = 2 + len(bill_sheet(full_bill()).rows)
"""The first row of a worksheet below the table of the full bill, counted from 1."""


def read(bill: Bill) -> Workbook:
    """The workbook of a bill as openpyxl reads it."""
    return openpyxl.load_workbook(io.BytesIO(as_xlsx(bill)))


def table(worksheet: Worksheet, sheet: Sheet) -> list[tuple[object, ...]]:
    """The rows of a worksheet that belong to its table."""
    return list(worksheet.iter_rows(2, 1 + len(sheet.rows), 1, len(sheet.columns), values_only=True))


def shown(cell: object) -> object:
    """A cell as a reader of workbooks gives it: numbers in floating point, no empty text."""
    if isinstance(cell, str):
        return legal(cell) or None
    return float(cell) if isinstance(cell, Decimal | float) else cell


@pytest.fixture(scope="module")
def book() -> Workbook:
    """The full bill's workbook."""
    return read(full_bill())


def test_every_sheet_with_a_row_is_a_worksheet_and_the_bill_always(book: Workbook) -> None:
    assert [sheet.name for sheet in sheets(full_bill())] == book.sheetnames
    assert ["bill"] == read(empty_bill()).sheetnames


def test_headers_are_bold_frozen_and_have_filters(book: Workbook) -> None:
    for sheet in sheets(full_bill()):
        worksheet = book[sheet.name]
        last = worksheet.cell(1 + len(sheet.rows), len(sheet.columns)).coordinate

        assert [column.name for column in sheet.columns] == [cell.value for cell in worksheet[1]]
        assert all(cell.font.bold and cell.border.bottom.style == "thin" for cell in worksheet[1])
        assert "A2" == worksheet.freeze_panes
        assert f"A1:{last}" == worksheet.auto_filter.ref


def test_columns_are_wide_enough_within_bounds(book: Workbook) -> None:
    widths = [dimension.width for worksheet in book for dimension in worksheet.column_dimensions.values()]

    assert WIDTH_LEAST <= min(widths)
    assert max(widths) < WIDTH_MOST + 1
    assert book["labels"].column_dimensions["A"].width > book["labels"].column_dimensions["B"].width


def test_it_prints_on_a4_across_one_page_wide_with_its_header_on_each(book: Workbook) -> None:
    """ISO/IEC 29500-1, 18.3.1.63: paper size 9 is A4."""
    for worksheet in book:
        setup = worksheet.page_setup
        assert ("landscape", 9, 1, 0) == (
            setup.orientation,
            int(setup.paperSize),
            setup.fitToWidth or 1,
            setup.fitToHeight,
        )
        assert worksheet.sheet_properties.pageSetUpPr.fitToPage
        assert "$1:$1" == worksheet.print_title_rows
        assert 'Boathouse "cutting" rooms && <attic> (boathouse.yaml)' == worksheet.oddFooter.left.text
        assert "Page &P of &N" == worksheet.oddFooter.right.text.replace("&[Page]", "&P").replace("&[Pages]", "&N")


@pytest.mark.parametrize("name", ["Sound &Grading", "&[Picture] &G", "7 rooms & more", "&" * 64, "x" * 400])
def test_no_name_of_a_plan_is_a_command_in_the_footer(name: str) -> None:
    worksheet = read(replace(full_bill(), plan=name))["bill"]
    parts = zipfile.ZipFile(io.BytesIO(as_xlsx(replace(full_bill(), plan=name)))).namelist()

    assert worksheet.oddFooter.left.text
    assert not [part for part in parts if "drawing" in part.casefold()]


def test_no_cell_is_a_formula_a_link_or_a_number_in_disguise(book: Workbook) -> None:
    cells = [cell for worksheet in book for row in worksheet.iter_rows() for cell in row if cell.value is not None]
    texts = [cell for cell in cells if isinstance(cell.value, str)]

    assert {"s", "n"} == {cell.data_type for cell in cells}
    assert {"s"} == {cell.data_type for cell in texts}
    assert not [cell for cell in cells if cell.hyperlink is not None]
    assert set(HOSTILE) <= {cell.value for cell in texts}


def test_text_that_looks_like_a_formula_stays_text_when_somebody_edits_it(book: Workbook) -> None:
    cells = [cell for cell in book["labels"]["A"] if isinstance(cell.value, str)]

    assert [is_formula(cell.value) for cell in cells] == [bool(cell.quotePrefix) for cell in cells]


@given(bills())
@settings(max_examples=25, deadline=None)
def test_every_cell_comes_back_as_it_was(bill: Bill) -> None:
    book = read(bill)
    for sheet in sheets(bill):
        if sheet.rows or sheet.name == "bill":
            expected = [tuple(shown(cell) for cell in row) for row in sheet.rows]

            assert expected == table(book[sheet.name], sheet)


def test_totals_stand_below_the_table_in_its_own_columns(book: Workbook) -> None:
    rows = list(book["bill"].iter_rows(BELOW, values_only=True))
    expected = [("total", "EUR", 971.88), ("total", "GBP", 57)]

    assert expected == [(row[9], row[10], row[11]) for row in rows if row[9] == "total"]
    assert {None} == set(rows[0])


def test_what_to_know_before_ordering_stands_below_the_totals(book: Workbook) -> None:
    lines = [row[0] for row in book["bill"].iter_rows(BELOW, values_only=True) if row[0]]

    assert set(full_bill().remarks) <= set(lines)
    assert ["7 rows are without a price" in line for line in lines].count(True) == 1


def test_it_is_said_that_sums_do_not_follow_prices_and_how_prices_come_back(book: Workbook) -> None:
    lines = [row[0] for row in book["bill"].iter_rows(BELOW, values_only=True) if row[0]]

    assert AS_OF_WRITING == lines[0]
    assert {"as of writing", "CSV", "--prices"} <= set(re.findall("as of writing|CSV|--prices", lines[0]))


def test_lengths_money_and_counts_are_shown_as_such(book: Workbook) -> None:
    expected = ["0.00", "General", "General", "General", "#,##0.00##", "General", "#,##0.00##"]

    assert expected == [cell.number_format for cell in book["bill"][2][5:12]]


def test_long_columns_wrap_and_a_row_grows_no_further_than_the_window() -> None:
    tests = (BenchTest("cord", 1, "x" * 100), BenchTest("cord", 1, "word " * 10_000), BenchTest("cord", 1, "short"))
    worksheet = read(replace(full_bill(), bench=tests))["bench"]

    assert [True] * 3 == [worksheet.cell(row, 3).alignment.wrap_text for row in (2, 3, 4)]
    assert [30, 180, None] == [worksheet.row_dimensions[row].height for row in (2, 3, 4)]
    assert str(worksheet["C3"].value).endswith(CUT)


def test_control_characters_in_names_do_not_break_the_file() -> None:
    worksheet = read(replace(full_bill(), measure=("a\0b", "\ud800", "\x1b[31m"), plan="a\x07b"))["lengths"]

    assert {"a␀b", "\ufffd", "␛[31m"} <= {cell.value for cell in worksheet["A"]}


def test_equal_bills_give_equal_bytes() -> None:
    assert as_xlsx(full_bill()) == as_xlsx(full_bill())
