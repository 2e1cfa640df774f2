"""A sheet in CSV of any usual dialect: its named columns, and its rows with their places."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from io import StringIO
from typing import NamedTuple

from netaudit.errors import InputError, Problem, nearest
from netaudit.plan.reading.files import decoded, read_bytes
from netaudit.plan.reading.hints import COMPARED
from netaudit.plan.reading.problems import Problems, StoppedError
from netaudit.plan.reading.raw import Positions
from netaudit.plan.scalars.text import LONGEST_NAME, printable, quoted

SEPARATORS = {",": "a comma", ";": "a semicolon", "\t": "a tab"}
"""What parts the cells of a row; spreadsheets write a semicolon where the comma is the decimal mark."""
MOST_ROWS = 1_000_000
"""Rows of one sheet that are read, empty ones included."""

_WORKBOOK = b"PK\x03\x04"
"""How a ZIP archive begins, which a workbook is (APPNOTE.TXT - .ZIP File Format Specification, 4.3.7)."""
_TITLE = re.compile(r"(.*?)\s*(?:\[([^\[\]]*)\]|\(([^()]*)\))?", re.DOTALL)


class Wanted(NamedTuple):
    """The columns that a sheet is read by, named in lower case."""

    needed: tuple[str, ...]
    others: tuple[str, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """All of them."""
        return (*self.needed, *self.others)


class Heading(NamedTuple):
    """The head of a column that is wanted."""

    place: int
    """Columns before it."""
    title: str
    """As the sheet has it."""
    unit: str
    """The unit in brackets behind its name; empty where there is none."""


class Row(NamedTuple):
    """A row that is not empty."""

    at: int
    """Character at which it begins, counted from 0."""
    line: int
    """Line on which it begins, counted from 1."""
    cells: Sequence[str]


@dataclass(frozen=True, slots=True)
class Table:
    """A sheet whose header is understood."""

    text: str
    separator: str
    headings: Mapping[str, Heading]
    """Name of each wanted column that is there to its head."""
    rows: Iterator[Row]
    """Each row below the header once; a row that cannot be read is noted and passed over."""

    def index(self, row: Row, place: int) -> int:
        """The character at which a cell begins."""
        cell = re.compile(rf' *(?:"[^"]*(?:""[^"]*)*")?[^{self.separator}\r\n]*')
        index = row.at
        for _ in range(place):
            found = cell.match(self.text, index)
            index = found.end() + 1 if found else index
        return index


def read_table(file: str, wanted: Wanted, problems: Problems) -> Table:
    """The sheet in a file.

    Raises InputError where the file is no text, StoppedError where its header cannot be understood.
    """
    text = _text(file)
    problems.positions = Positions(text)
    if "\0" in text:
        problems.stop_alone(text.index("\0"), "a character of code zero stands here: save the sheet as CSV")
    separator = max(SEPARATORS, key=lambda each: _fitness(text, each, wanted))
    rows = _rows(text, separator, problems)
    header = next(rows, None)
    if header is None:
        columns = ", ".join(wanted.needed)
        problems.stop(0, f"the sheet is empty: its first row names the columns, {columns} among them")
    headings = _headings(header, wanted, problems)
    return Table(text, separator, headings, _even(rows, len(header.cells), separator, problems))


def _text(file: str) -> str:
    data = read_bytes(file, "sheet")
    if data.startswith(_WORKBOOK):
        raise InputError([Problem(printable(file), "this is a workbook: save the sheet as CSV")])
    return decoded(data, file, "sheet")


def _fitness(text: str, separator: str, wanted: Wanted) -> tuple[int, int]:
    """How well the first row reads with a separator: columns that are wanted, then all of them."""
    try:
        header = next(_rows(text, separator, Problems("")), None)
    except StoppedError:
        return (-1, 0)
    cells = () if header is None else header.cells
    return (len({_title(cell)[0] for cell in cells}.intersection(wanted.names)), len(cells))


def _bare(cells: Sequence[str]) -> list[str]:
    """Cells without the blanks around them."""
    return [cell.strip() for cell in cells]


def _rows(text: str, separator: str, problems: Problems) -> Iterator[Row]:
    """Every row that is not empty; raises StoppedError where one cannot be told from the next, or one is too many."""
    lines = StringIO(text, newline="")
    reader = csv.reader(lines, delimiter=separator, strict=True, skipinitialspace=True)
    for count in range(MOST_ROWS + 2):
        index, line = lines.tell(), reader.line_num + 1
        try:
            cells = next(reader, None)
        except csv.Error:
            problems.stop(index, _unpaired(text[index : lines.tell()]))
        if cells is None:
            return
        if count > MOST_ROWS:
            problems.stop(index, f"the sheet has more than {MOST_ROWS} rows: divide it")
        bare = _bare(cells)
        if any(bare):
            yield Row(index, line, bare)


def _unpaired(source: str) -> str:
    """What to say of a row that the parser gives up."""
    if '"' in source:
        return "the quotes of this row do not pair: write one inside a cell twice, and nothing behind one that closes"
    return f"a cell of this row holds more than {csv.field_size_limit()} characters: shorten it"


def _headings(header: Row, wanted: Wanted, problems: Problems) -> dict[str, Heading]:
    """The wanted columns that are there; raises StoppedError where one is missing or stands twice."""
    headings: dict[str, Heading] = {}
    known, others = frozenset(wanted.names), []
    for place, cell in enumerate(header.cells):
        name, unit = _title(cell)
        if name not in known:
            others.append(name[:LONGEST_NAME])
        elif name in headings:
            both = f"columns {headings[name].place + 1} and {place + 1}"
            problems.add(header.at, (), f"{both} are both called {quoted(name)}: rename or remove one")
        else:
            headings[name] = Heading(place, cell, unit)
    for name in wanted.needed:
        if name not in headings:
            near = nearest(name, others[:COMPARED])
            hint = f"; is {quoted(near)} meant for it?" if near else ""
            problems.add(header.at, (), f"no column is called {quoted(name)}, and the sheet needs it{hint}")
    if problems:
        raise StoppedError
    return headings


def _title(cell: str) -> tuple[str, str]:
    """Name of a column in lower case, and the unit in brackets behind it."""
    found = _TITLE.fullmatch(cell) if len(cell) <= LONGEST_NAME else None
    if found is None:
        return cell, ""
    return " ".join(found[1].split()).casefold(), (found[2] or found[3] or "").strip()


def _even(rows: Iterator[Row], columns: int, separator: str, problems: Problems) -> Iterator[Row]:
    """The rows that have a cell for each column."""
    for row in rows:
        if len(row.cells) == columns:
            yield row
        else:
            cells = "1 cell" if len(row.cells) == 1 else f"{len(row.cells)} cells"
            quotes = f"in quotes where one holds {SEPARATORS[separator]}"
            problems.add(row.at, (), f"this row has {cells}, the header {columns}: write as many, {quotes}")
