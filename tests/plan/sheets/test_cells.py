"""Cells by the names of their columns."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from bills import HOSTILE
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.plan.reading.problems import Problems
from netaudit.plan.sheets.cells import Cells, read_rows
from netaudit.plan.sheets.table import Heading, Row, Table, Wanted
from netaudit.report.bill.formulas import is_formula

WANTED = Wanted(("name",), ("count",))


def cells_of(cell: str) -> Cells:
    """A row of one cell, as the table gives it."""
    table = Table("", ",", {"name": Heading(0, "name", "")}, iter(()))
    return Cells(table, Row(0, 2, [cell]), Problems("sheet.csv"))


@pytest.mark.parametrize("text", HOSTILE)
def test_a_text_that_was_kept_from_being_a_formula_is_itself_again(text: str) -> None:
    kept = f"'{text}" if is_formula(text) else text

    assert text == cells_of(kept).text("name")


@settings(max_examples=300, deadline=None)
@given(st.text(st.sampled_from("'=+-@\t\r ＝\u200b\ufeffa1"), max_size=6))
def test_taking_the_apostrophe_off_undoes_putting_it_on(text: str) -> None:
    kept = f"'{text}" if is_formula(text) else text

    assert text == cells_of(kept).text("name")


def test_each_problem_is_noted_and_the_others_are_still_read(
    told: Callable[[Callable[[str], object], str], list[str]],
) -> None:
    def parse(text: str) -> int:
        if not re.fullmatch("[0-9]+", text):
            raise ValueError(f"'{text}' is no count")
        return int(text)

    expected = ["sheet.csv:2:3: Count [x]: 'a' is no count", "sheet.csv:4:3: Count [x]: 'b' is no count"]

    assert expected == told(
        lambda file: read_rows(file, WANTED, lambda cells: cells.value("count", parse)),
        "name,Count [x]\nq,a\nw,1\ne,b\n",
    )


def test_a_row_of_which_nothing_is_made_is_left_out(written: Callable[[str], str]) -> None:
    def parse(cells: Cells) -> str | None:
        return cells.text("name") or None

    assert ("q", "e") == read_rows(written("name,count\nq,1\n,2\ne,3\n"), WANTED, parse)


def test_a_column_that_is_not_there_is_empty_and_has_no_unit() -> None:
    cells = cells_of("x")

    assert ["", "", None] == [cells.text("count"), cells.unit("count"), cells.value("count", int)]


def test_the_writers_own_escape_has_the_same_characters() -> None:
    # OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection): = + - @ tab, carriage return, line feed,
    # and their full-width forms.
    for character in "=+-@\t\r\n＝＋－＠":
        assert character + "x" == cells_of(f"'{character}x").text("name")
    assert "'tis" == cells_of("'tis").text("name")
