"""A sheet as CSV by RFC 4180, safe to open in a spreadsheet."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal

from netaudit.report.bill.formulas import is_formula
from netaudit.report.bill.sheet import Cell, Sheet
from netaudit.report.goods_words import exact_text

NEW_LINE = "\r\n"
QUOTED = re.compile(r'[",;\t\r\n]')
"""What has to be quoted by RFC 4180, section 2, rule 6; the semicolon and the tab as well, which are the separator
in spreadsheets of other languages, where the rest of such a text would stand in a cell of its own."""


def as_csv(sheet: Sheet) -> str:
    """A header, then a line for each row, each ended by CR LF; unknown is empty, numbers are plain with a point.

    A text that looks like a formula gets an apostrophe before it.
    """
    head = _line(_escaped(column.name) for column in sheet.columns)
    return "".join((head, *(_line(map(_cell, row)) for row in sheet.rows)))


def _line(cells: Iterable[str]) -> str:
    return ",".join(cells) + NEW_LINE


def _cell(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return _escaped(f"'{cell}" if is_formula(cell) else cell)
    return _number(cell)


def _number(value: float | Decimal) -> str:
    """A number without an exponent: money with two decimals at least, any other without needless zeros."""
    if isinstance(value, float):
        text = f"{Decimal(repr(value)):f}"
        return text.removesuffix(".0")
    return exact_text(value) if isinstance(value, Decimal) else str(value)


def _escaped(text: str) -> str:
    """A text in quotes where it needs them (RFC 4180, section 2, rules 5 to 7)."""
    return f'"{text.replace(chr(34), chr(34) * 2)}"' if QUOTED.search(text) else text
