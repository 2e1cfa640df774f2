"""The cells of a sheet by the names of their columns: read to values, or noted as problems at their places."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from typing import TypeVar

from netaudit.plan.reading.problems import Problems, StoppedError
from netaudit.plan.scalars.text import path_part
from netaudit.plan.sheets.table import Row, Table, Wanted, read_table

Value = TypeVar("Value")

_NEUTRALISED = re.compile(r"'(?='*(?:[\t\r\n\0]|[\s\u200b\u2060\ufeff]*[=+\-@＝＋－＠]))")
"""The apostrophe that our own sheets put before a text which a spreadsheet would take for a formula: one that begins
with a character of OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection), behind apostrophes too."""


class Cells:
    """The cells of one row."""

    def __init__(self, table: Table, row: Row, problems: Problems) -> None:
        self._table = table
        self._row = row
        self._problems = problems

    @property
    def line(self) -> int:
        """Line on which the row begins, counted from 1."""
        return self._row.line

    @property
    def separator(self) -> str:
        """What parts the cells of the sheet."""
        return self._table.separator

    def unit(self, name: str) -> str:
        """The unit at the head of a column; empty where it names none, or where there is no such column."""
        heading = self._table.headings.get(name)
        return "" if heading is None else heading.unit

    def text(self, name: str) -> str:
        """A cell as it is meant; empty where there is no such column."""
        heading = self._table.headings.get(name)
        return "" if heading is None else _meant(self._row.cells[heading.place])

    def value(self, name: str, parse: Callable[[str], Value]) -> Value | None:
        """A cell read; None for an empty one, and for one that `parse` refuses by ValueError, which is noted."""
        text = self.text(name)
        return self.asked(name, lambda: parse(text)) if text else None

    def asked(self, name: str, read: Callable[[], Value]) -> Value | None:
        """What `read` gives; None where it refuses by ValueError, which is noted at the cell of that name."""
        try:
            return read()
        except ValueError as error:
            self.note(name, str(error))
            return None

    def note(self, name: str, message: str) -> None:
        """Note a problem at a cell; raises StoppedError when there are more than anybody will read."""
        heading = self._table.headings[name]
        index = self._table.index(self._row, heading.place)
        self._problems.add(index, (path_part(heading.title),), message)


def _meant(cell: str) -> str:
    """A cell without the apostrophe that keeps it from being a formula."""
    return cell[1:] if _NEUTRALISED.match(cell) else cell


def read_rows(
    path: str | os.PathLike[str], wanted: Wanted, parse: Callable[[Cells], Value | None]
) -> tuple[Value, ...]:
    """What `parse` makes of each row of a sheet, without the rows of which it makes None.

    Raises InputError with every problem of the file, in file order, where there is any.
    """
    file = os.fspath(path)
    problems = Problems(file)
    try:
        table = read_table(file, wanted, problems)
        values = [parse(Cells(table, row, problems)) for row in table.rows]
    except StoppedError:
        raise problems.error() from None
    if problems:
        raise problems.error()
    return tuple(value for value in values if value is not None)
