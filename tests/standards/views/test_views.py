"""Every table can be shown, whole, with every source it has."""

import csv

import pytest

from netaudit.standards.published import shown
from netaudit.standards.reading import FOLDER
from netaudit.standards.views import VIEWS
from netaudit.standards.views.view import View

FILES = sorted(path.name for path in FOLDER.glob("*.csv"))


def head(name: str) -> list[str]:
    with (FOLDER / name).open(encoding="utf-8", newline="") as lines:
        return next(csv.reader(lines))


@pytest.mark.parametrize("name", FILES)
def test_every_source_of_every_table_is_shown_by_some_view(name: str) -> None:
    sources = {column for column in head(name) if column.endswith("source")}
    assert sources <= {view.source for view in VIEWS if view.file == name}


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.title)
def test_a_view_names_columns_that_its_table_has(view: View) -> None:
    assert {*view.columns, view.source, *view.by.values()} <= set(head(view.file))


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.title)
def test_a_view_shows_rows_and_every_number_as_a_number(view: View) -> None:
    table = shown(view, lambda _: True)
    words = {"any", None}

    assert table.rows
    for row in table.rows:
        assert len(table.columns) == len(row.cells)
        for cell, column in zip(row.cells, table.columns, strict=True):
            assert isinstance(cell, str | None) or column.unit is not None
            assert column.unit is None or isinstance(cell, int | float) or cell in words, (view.title, column, cell)


def test_no_two_views_have_the_same_title() -> None:
    assert len(VIEWS) == len({view.title for view in VIEWS})


def test_every_view_answers_to_a_word() -> None:
    assert all(view.subjects for view in VIEWS)
