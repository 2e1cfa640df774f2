"""A bill as plain text, and one sheet of it."""

from __future__ import annotations

from collections.abc import Callable

from bills import empty_bill, full_bill

from netaudit.report.bill.plain import plain, plain_sheet
from netaudit.report.bill.sheet import Column, Sheet
from netaudit.report.bill.sheets.every import sheet as sheet_of
from netaudit.report.bill.sheets.every import sheets
from netaudit.report.bill.words import NOT_JUDGED


def test_a_whole_bill_is_kept_as_text(expect: Callable[[str, str], None]) -> None:
    expect("bill.txt", plain(full_bill()))


def test_an_empty_bill_says_so() -> None:
    lines = plain(empty_bill()).splitlines()

    assert ["Nothing needs to be ordered.", NOT_JUDGED, "", "unnamed plan (boathouse.yaml)"] == lines[:4]


def test_no_line_trails_blanks() -> None:
    assert [] == [line for line in plain(full_bill()).splitlines() if line != line.rstrip()]


def test_a_sheet_has_its_title_its_heads_and_its_rows() -> None:
    sheet = Sheet("cuts", "Cuts", (Column("cable"), Column("cut [m]", number=True)), (("W02", 41.0), ("W03", None)))

    assert "Cuts\ncable  cut [m]\nW02    41\nW03\n" == plain_sheet(sheet)


def test_a_text_of_several_lines_stays_in_its_row_and_keeps_its_letters_and_blanks() -> None:
    rows = (("B01\ncore/13\tto\r\nvault", "a  می\u200cخواهم"),)
    sheet = Sheet("labels", "Labels", (Column("text"), Column("far")), rows)

    assert "Labels\ntext                  far\nB01 core/13 to vault  a  می\u200cخواهم\n" == plain_sheet(sheet)


def test_each_label_takes_one_line() -> None:
    labels = sheet_of(full_bill(), "labels")

    assert 2 + len(labels.rows) == len(plain_sheet(labels).splitlines())


def test_a_sheet_without_rows_says_so() -> None:
    assert "Cuts: nothing.\n" == plain_sheet(Sheet("cuts", "Cuts", (Column("cable"),), ()))


def test_every_sheet_can_be_shown() -> None:
    for sheet in sheets(full_bill()):
        assert plain_sheet(sheet).startswith(sheet.title)
