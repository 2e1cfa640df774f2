"""A sheet as a value."""

from __future__ import annotations

from typing import get_args

from bills import full_bill

from netaudit.report.bill.sheet import SheetName
from netaudit.report.bill.sheets.every import sheets


def test_every_name_has_its_sheet_and_every_row_a_cell_for_each_column() -> None:
    made = sheets(full_bill())

    assert list(get_args(SheetName)) == [sheet.name for sheet in made]
    assert [] == [sheet.name for sheet in made for row in sheet.rows if len(row) != len(sheet.columns)]
