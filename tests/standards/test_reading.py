"""A table that is wrong in any cell, or cites what is not there, is refused as it is read."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from netaudit.standards import reading

SOURCES = '[book]\ndocument = "A handbook"\nclause = "table 3"\nseen = "page 12"\nstanding = "secondary"\n'


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """An empty folder that stands in for the tables, with one good source in it."""
    monkeypatch.setattr(reading, "FOLDER", tmp_path)
    reading.sources.cache_clear()
    (tmp_path / "sources.toml").write_text(SOURCES, encoding="utf-8")
    yield tmp_path
    reading.sources.cache_clear()


def only_row(folder: Path, text: str) -> reading.Row:
    (folder / "reach.csv").write_text(text, encoding="utf-8")
    (row,) = reading.table("reach.csv")
    return row


def test_a_row_gives_text_numbers_and_its_source(folder: Path) -> None:
    row = only_row(folder, "phy,reach_m,count,source\n10GBASE-T,37.5,4,book\n")
    assert (row.text("phy"), row.number("reach_m"), row.whole("count")) == ("10GBASE-T", 37.5, 4)
    citation = row.citation()
    assert citation.document == "A handbook, as given by page 12"
    assert (citation.clause, citation.standing) == ("table 3", "secondary")


def test_an_empty_cell_is_unknown_where_it_may_be_and_never_zero(folder: Path) -> None:
    row = only_row(folder, "phy,reach_m,count,source\n,,,\n")
    assert row.optional_text("phy") is None
    assert row.optional_number("reach_m") is None
    assert row.optional_whole("count") is None
    assert row.optional_citation("source") is None


@pytest.mark.parametrize("column", ["phy", "absent"])
def test_an_empty_or_absent_cell_is_refused_where_it_must_be_filled(folder: Path, column: str) -> None:
    row = only_row(folder, "phy,source\n,book\n")
    with pytest.raises(ValueError, match=rf"reach\.csv:2: no {column}"):
        row.text(column)


@pytest.mark.parametrize(("cell", "message"), [("pamphlet", "no source 'pamphlet'"), ("", "no source")])
def test_a_row_that_cites_nothing_known_is_refused_with_its_place(folder: Path, cell: str, message: str) -> None:
    row = only_row(folder, f"phy,source\n10GBASE-T,{cell}\n")
    with pytest.raises(ValueError, match=rf"reach\.csv:2: {message}"):
        row.citation()


@pytest.mark.parametrize("line", ["10GBASE-T", "10GBASE-T,book,more"])
def test_a_row_with_too_few_or_too_many_cells_is_refused(folder: Path, line: str) -> None:
    with pytest.raises(ValueError, match=r"reach\.csv:2: 2 cells are due"):
        only_row(folder, f"phy,source\n{line}\n")


@pytest.mark.parametrize(
    "entry",
    [
        'document = "A handbook"\n',
        'standing = "secondary"\n',
        'document = "A handbook"\nstanding = "hearsay"\n',
        'document = "A handbook"\nstanding = "secondary"\npage = 12\n',
    ],
)
def test_a_source_without_document_or_proper_standing_is_refused(folder: Path, entry: str) -> None:
    (folder / "sources.toml").write_text(f"[book]\n{entry}", encoding="utf-8")
    with pytest.raises(ValueError, match="book: needs a document and a standing"):
        reading.sources()
