"""A bill on a terminal."""

from __future__ import annotations

import io
from collections.abc import Callable

from bills import empty_bill, full_bill

from netaudit.report.bill.console import show, show_sheet
from netaudit.report.bill.plain import plain_sheet
from netaudit.report.bill.sheet import Column, Sheet


def test_a_whole_bill_on_a_terminal_of_100_columns_is_kept(expect: Callable[[str, str], None]) -> None:
    screen = io.StringIO()
    show(full_bill(), screen, 100)
    lines = [line.rstrip() for line in screen.getvalue().splitlines()]

    expect("bill-100.txt", "\n".join(lines) + "\n")


def test_an_empty_bill_says_so() -> None:
    screen = io.StringIO()
    show(empty_bill(), screen, 80)

    assert screen.getvalue().startswith("Nothing needs to be ordered.\n")


def test_markup_in_names_is_text() -> None:
    sheet = Sheet("cuts", "[bold]Cuts", (Column("cable"),), (("[red]W02[/red]",),))
    screen = io.StringIO()
    show_sheet(sheet, screen, 80)

    assert ["[bold]Cuts", "cable", "[red]W02[/red]"] == [line.strip() for line in screen.getvalue().splitlines()]


def test_a_sheet_without_rows_says_so_in_the_words_of_the_plain_form() -> None:
    sheet = Sheet("cuts", "[bold]Cuts", (Column("cable"),), ())
    screen = io.StringIO()
    show_sheet(sheet, screen, 80)

    assert plain_sheet(sheet) == screen.getvalue()
    assert "[bold]Cuts: nothing.\n" == screen.getvalue()
