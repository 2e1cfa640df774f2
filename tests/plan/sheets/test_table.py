"""CSV in every usual dialect: rows, their places, and every way in which a sheet is none."""

from __future__ import annotations

import csv
from collections.abc import Callable
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from netaudit.errors import InputError
from netaudit.plan.reading.problems import TOLD, Problems
from netaudit.plan.sheets.cells import Cells, read_rows
from netaudit.plan.sheets.table import MOST_ROWS, Wanted, read_table

WANTED = Wanted(("aaa",), ("bbb", "ccc"))
Told = Callable[[Callable[[str], object], str | bytes], list[str]]
Written = Callable[[str | bytes], str]


def rows(file: str) -> tuple[tuple[int, str, str, str], ...]:
    """Line and cells of each row."""
    return read_rows(file, WANTED, lambda cells: (cells.line, *(cells.text(name) for name in WANTED.names)))


def refused(_: Cells) -> None:
    """Make nothing of a row."""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", (2, "zzz", "yyy", "xxx")),
        ("aaa,bbb,ccc\r\nzzz,yyy,xxx", (2, "zzz", "yyy", "xxx")),
        ('"aaa","bbb","ccc"\r\nzzz,yyy,xxx', (2, "zzz", "yyy", "xxx")),
        ('aaa,bbb,ccc\r\n"aaa","b\r\nbb","ccc"\r\n', (2, "aaa", "b\r\nbb", "ccc")),
        ('aaa,bbb,ccc\r\n"aaa","b""bb","ccc"\r\n', (2, "aaa", 'b"bb', "ccc")),
    ],
)
def test_the_examples_of_the_csv_standard_are_read(text: str, expected: tuple[object, ...], written: Written) -> None:
    # IETF RFC 4180, section 2, rules 1, 2, 5, 6 and 7: their examples, under a header where they have none.
    assert (expected,) == rows(written(text))


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", ["\r\n", "\n", "\r"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("quoting", [csv.QUOTE_MINIMAL, csv.QUOTE_ALL, csv.QUOTE_NONNUMERIC])
def test_what_another_writer_writes_in_any_dialect_is_read_back(
    mark: bytes, end: str, separator: str, quoting: int, written: Written
) -> None:
    cells = ["W01", 'both, "ends"; here\tand\nthere', "é 日本語 שלום"]
    text = StringIO(newline="")
    writer = csv.writer(text, delimiter=separator, lineterminator=end, quoting=quoting)  # type: ignore[arg-type]
    writer.writerows((WANTED.names, cells, ["", "", ""], cells))

    assert ((2, *cells), (5, *cells)) == rows(written(mark + text.getvalue().encode()))


@pytest.mark.parametrize("dialect", csv.list_dialects())
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.tuples(*[st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=9)] * 3), max_size=5
    )
)
def test_any_cells_come_back_without_the_blanks_around_them(
    dialect: str, tmp_path: Path, cells: list[tuple[str, str, str]]
) -> None:
    plain = [tuple(f"a{cell.strip()}" for cell in row) for row in cells]
    with (tmp_path / "sheet.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, dialect).writerows((WANTED.names, *plain))

    assert plain == [row[1:] for row in rows(str(tmp_path / "sheet.csv"))]


def test_a_blank_behind_a_separator_does_not_part_a_cell_from_its_quotes(written: Written) -> None:
    assert ((2, "x", "y, z", "w"),) == rows(written('aaa, bbb, ccc\nx, "y, z", w\n'))


@pytest.mark.parametrize(
    ("header", "expected"),
    [
        ("AAA", ""),
        ("Aaa [m]", "m"),
        ("aaa(Gb/s)", "Gb/s"),
        ("aaa [ EUR ]", "EUR"),
        ("aaa []", ""),
        ("aaa" + " " * 58 + "[m]", "m"),
    ],
)
def test_a_column_is_told_by_its_name_whatever_its_case_and_its_unit(
    header: str, expected: str, written: Written
) -> None:
    assert (("x", expected),) == read_rows(
        written(f"{header}\nx\n"), WANTED, lambda cells: (cells.text("aaa"), cells.unit("aaa"))
    )


def test_columns_that_nobody_wants_are_passed_over(written: Written) -> None:
    assert ((2, "1", "3", ""),) == rows(written("aaa;serves;bbb;serves\n1;2;3;4\n"))


def test_the_separator_is_the_one_that_gives_columns_that_are_wanted(written: Written) -> None:
    assert ((2, "1", "2, 3, 4", ""),) == rows(written("aaa;bbb;x, y, z\n1;2, 3, 4;5\n"))


def test_rows_before_the_header_and_between_others_may_be_empty(written: Written) -> None:
    assert ((4, "1", "2", ""), (7, "3", "4", "")) == rows(written("\n;;\naaa;bbb\n1;2\n\n;\n3;4\n\n"))


def test_the_place_of_a_cell_is_where_it_begins(written: Written, marked: Callable[[str], tuple[str, str]]) -> None:
    for text in ("aaa,bbb\n1,§2\n", 'aaa;bbb\n"x\ny;""z""";§q\n', "aaa\tbbb\r\n\t§2", 'aaa,bbb\n "1,1",§ 2\n'):
        plain, expected = marked(text)
        problems = Problems("sheet.csv")
        table = read_table(written(plain), WANTED, problems)
        row = next(table.rows)
        position = problems.positions.at(table.index(row, 1))

        assert expected == f"{position.line}:{position.column}"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", ["1:1: the sheet is empty: its first row names the columns, aaa among them"]),
        ("\n  \n\u00a0\n", ["1:1: the sheet is empty: its first row names the columns, aaa among them"]),
        ("aab,bbb\n1,2\n", ["1:1: no column is called 'aaa', and the sheet needs it; is 'aab' meant for it?"]),
        ("\nx\n1\n", ["2:1: no column is called 'aaa', and the sheet needs it"]),
        ('"x";"y"\n1;2\n', ["1:1: no column is called 'aaa', and the sheet needs it"]),
        ("aaa,AAA [m]\n1,2\n", ["1:1: columns 1 and 2 are both called 'aaa': rename or remove one"]),
        (
            "aaa;bbb\n1;2;3\n4\n5;6\n",
            [
                "2:1: this row has 3 cells, the header 2: write as many, in quotes where one holds a semicolon",
                "3:1: this row has 1 cell, the header 2: write as many, in quotes where one holds a semicolon",
            ],
        ),
        (
            'aaa,bbb\n1\n"2,3\n4,5\n',
            [
                "2:1: this row has 1 cell, the header 2: write as many, in quotes where one holds a comma",
                "3:1: the quotes of this row do not pair: write one inside a cell twice, and nothing behind one that closes",
            ],
        ),
        (
            'aaa\n"1" 2\n',
            [
                "2:1: the quotes of this row do not pair: write one inside a cell twice, and nothing behind one that closes"
            ],
        ),
        ("aaa\n" + "x" * 131_073, ["2:1: a cell of this row holds more than 131072 characters: shorten it"]),
        ("aaa\n1\0\n", ["2:2: a character of code zero stands here: save the sheet as CSV"]),
        (b"aaa\ncaf\xe9\n", ["2:4: the byte 0xe9 is not UTF-8: save the file as UTF-8"]),
        ("aaa\n1\n".encode("utf-16"), ["1:1: this is UTF-16: save the file as UTF-8"]),
        (b"PK\x03\x04\x14\x00", [" this is a workbook: save the sheet as CSV"]),
    ],
)
def test_every_problem_of_a_sheet_is_told_at_its_place(text: str | bytes, expected: list[str], told: Told) -> None:
    assert [f"sheet.csv:{line}" for line in expected] == told(lambda file: read_rows(file, WANTED, refused), text)


def test_what_is_no_sheet_is_told_in_the_words_of_a_sheet(tmp_path: Path, told: Told) -> None:
    with pytest.raises(InputError, match="this is a folder: name the sheet's file in it"):
        rows(str(tmp_path))

    assert ["sheet.csv: the file is larger than 16 MiB: divide the sheet"] == told(rows, b"x" * (2**24 + 1))


def test_many_problems_are_counted_and_the_first_are_told(told: Told) -> None:
    lines = told(rows, "aaa,bbb\n" + "1\n" * 5000)

    assert [TOLD + 1, "sheet.csv: and 4800 more problems"] == [len(lines), lines[-1]]
    assert "sheet.csv: and at least 9800 more problems" == told(rows, "aaa,bbb\n" + "1\n" * 20_000)[-1]


def test_a_million_rows_are_read_and_no_more(told: Told, written: Written) -> None:
    whole = "aaa\n" + "1\n" * (MOST_ROWS - 1) + "2\n"

    assert () == read_rows(written(whole), WANTED, refused)
    assert ["sheet.csv:1000002:1: the sheet has more than 1000000 rows: divide it"] == told(
        lambda file: read_rows(file, WANTED, refused), whole + "3\n"
    )


@pytest.mark.parametrize(
    "text",
    [
        "," * 100_000,
        " " * 100_000 + "(" * 30_000,
        ",".join(f"a{number}" for number in range(50_000)),
        '"' * 9_999,
        "\n" * 1_000_000,
    ],
    ids=["commas", "blanks", "columns", "quotes", "lines"],
)
def test_a_hostile_header_is_refused(text: str, told: Told) -> None:
    assert told(rows, text)[0].startswith("sheet.csv:1:1: ")
