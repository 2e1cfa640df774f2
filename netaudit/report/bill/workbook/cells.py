"""What of a sheet fits into a worksheet, and how wide it stands there."""

from __future__ import annotations

import re
from collections.abc import Sequence
from unicodedata import combining, east_asian_width

from netaudit.report.bill.sheet import Cell, Column, Sheet

ROWS_AT_MOST = 1_048_576
"""Rows of a worksheet, by Excel specifications and limits (support.microsoft.com)."""
CHARACTERS_AT_MOST = 32_767
"""Characters of a cell, counted in UTF-16 units, by the same page."""
FOOT_ROWS = 1000
"""Rows kept for what stands below a table."""
WIDTH_LEAST, WIDTH_MOST = 8, 60
"""Width of a column [characters]."""
ARROW = 4
"""Width of the filter's arrow beside a header, and of the indent [characters]."""
INDENT = 2
"""Width of the indent beside a cell, and of the air on its other side [characters]."""
BY_HAND = {"seen": 16, "initials": 12, "note": 40}
"""Width of the columns that somebody fills in with a pen, while they are empty [characters]."""
MONEY = "#,##0.00##"
CENTIMETRES = "0.00"
GENERAL = "General"
CUT = " … (cut: a cell holds no more)"

_NEW_LINE = re.compile(r"\r\n?")
_NOT_IN_XML = re.compile("[\0-\x08\x0b-\x1f\ud800-\udfff\ufffe\uffff]")
"""What XML 1.0, production 2, has no place for."""


def fitting(sheet: Sheet, rows_at_most: int = ROWS_AT_MOST - FOOT_ROWS) -> Sheet:
    """The sheet with as many rows as a worksheet holds below its header; the last one says what was left out."""
    room = rows_at_most - 1
    if len(sheet.rows) <= room:
        return sheet
    left_out = len(sheet.rows) - room + 1
    words = f"{left_out} more rows do not fit in a worksheet: take this sheet as CSV"
    last = (words, *[None] * (len(sheet.columns) - 1))
    return sheet._replace(rows=(*sheet.rows[: room - 1], last))


def legal(text: str) -> str:
    """A text that a cell can hold: control characters as their pictures, what is too long visibly cut."""
    lines = _NEW_LINE.sub("\n", text) if "\r" in text else text
    shown = _NOT_IN_XML.sub(_picture, lines)
    if _units(shown) <= CHARACTERS_AT_MOST:
        return shown
    kept = shown.encode("utf-16-le")[: 2 * (CHARACTERS_AT_MOST - len(CUT))].decode("utf-16-le", errors="ignore")
    return kept + CUT


def _picture(match: re.Match[str]) -> str:
    """The Unicode picture of a control character; the replacement character for what has none."""
    code = ord(match[0])
    return chr(0x2400 + code) if code < 0x20 else "\ufffd"


def _units(text: str) -> int:
    """Length of a text in UTF-16 [units]."""
    return len(text) if len(text) <= CHARACTERS_AT_MOST // 2 or text.isascii() else len(text.encode("utf-16-le")) // 2


def number_format(column: Column) -> str:
    """How the numbers of a column are shown: lengths to the centimetre, money with two to four decimals."""
    if column.name in ("price", "sum"):
        return MONEY
    return CENTIMETRES if column.name.endswith("[m]") else GENERAL


def shown_width(cell: Cell, shown_as: str) -> int:
    """How wide a cell stands when nothing is wrapped [characters]."""
    if cell is None:
        return 0
    if isinstance(cell, str):
        return max(map(text_width, cell.split("\n")))
    return len(f"{cell:,.4f}" if shown_as == MONEY else f"{cell:.2f}" if shown_as == CENTIMETRES else f"{cell:.12g}")


def text_width(text: str) -> int:
    """How wide a text stands; a wide character of East Asia counts twice, a combining one not at all [characters]."""
    if text.isascii():
        return len(text)
    return sum(0 if combining(char) else 2 if east_asian_width(char) in "WF" else 1 for char in text)


def column_width(column: Column, cells: Sequence[Cell]) -> int:
    """Width of a column that holds its header and its cells, within bounds [characters]."""
    shown_as = number_format(column)
    widest = max((shown_width(cell, shown_as) for cell in cells), default=0) or BY_HAND.get(column.name, 0)
    return min(WIDTH_MOST, max(WIDTH_LEAST, widest + INDENT, len(column.name) + ARROW))


def is_long(cell: Cell) -> bool:
    """Whether a cell needs more than one line in the widest column."""
    return isinstance(cell, str) and ("\n" in cell or "\r" in cell or text_width(cell) > WIDTH_MOST - INDENT)


def lines_in(text: str, width: int) -> int:
    """Lines that a text takes in a column of some width [characters]."""
    return sum(max(1, -(-text_width(line) // (width - INDENT))) for line in text.split("\n"))
