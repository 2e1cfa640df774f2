"""All sheets of a bill together."""

from __future__ import annotations

from typing import get_args

import pytest
from bills import bills, empty_bill, full_bill
from hypothesis import given, settings

from netaudit.model.bill import Bill
from netaudit.report.bill.sheet import SheetName
from netaudit.report.bill.sheets.every import sheet, sheets


def test_the_sheets_stand_in_the_order_of_their_names() -> None:
    expected = list(get_args(SheetName))

    assert expected == [one.name for one in sheets(full_bill())]


@pytest.mark.parametrize("name", get_args(SheetName))
def test_one_sheet_is_the_same_as_among_all(name: SheetName) -> None:
    expected = {one.name: one for one in sheets(full_bill())}[name]

    assert expected == sheet(full_bill(), name)


def test_an_empty_bill_has_every_sheet_without_a_row() -> None:
    assert [()] * len(get_args(SheetName)) == [one.rows for one in sheets(empty_bill())]


def test_the_full_bill_of_these_tests_fills_every_sheet() -> None:
    assert not [one.name for one in sheets(full_bill()) if not one.rows]


@given(bills())
@settings(max_examples=40, deadline=None)
def test_every_row_has_a_cell_for_each_column_and_numbers_stand_in_number_columns(bill: Bill) -> None:
    for one in (*sheets(bill), *sheets(full_bill())):
        for row in one.rows:
            assert len(one.columns) == len(row)
            texts = [column.name for column, cell in zip(one.columns, row, strict=True) if isinstance(cell, str)]
            numbers = [
                column.name
                for column, cell in zip(one.columns, row, strict=True)
                if cell is not None and not isinstance(cell, str)
            ]
            number_columns = {column.name for column in one.columns if column.number}
            assert not number_columns.intersection(texts)
            assert number_columns.issuperset(numbers)
