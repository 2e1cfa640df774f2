"""A bill as plain text for pipes and files: stable, unwrapped, without colour."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from netaudit.model.bill import Bill
from netaudit.report.bill.sections import sections, sentence, standing
from netaudit.report.bill.sheet import Cell, Sheet
from netaudit.report.columns import aligned
from netaudit.report.words import title
from netaudit.units import number_text

MORE = (
    "More: --sheet cuts, labels, ports, moves, accept or addresses; --format html to print all of it, xlsx to edit it."
)


def plain(bill: Bill) -> str:
    """The whole bill; ends with a line feed."""
    return "".join(f"{line}\n" for line in _lines(bill))


def _lines(bill: Bill) -> Iterator[str]:
    yield sentence(bill)
    yield from standing(bill)
    yield ""
    yield title(bill.plan, bill.file)
    for section in sections(bill):
        yield ""
        yield section.title
        if section.rows:
            rows = [section.head, *section.rows] if section.head else section.rows
            yield from (f"  {line}" for line in aligned(rows))
        yield from (f"  {line}" for line in section.lines)
    yield ""
    yield MORE


def plain_sheet(sheet: Sheet) -> str:
    """One sheet; ends with a line feed."""
    if not sheet.rows:
        return f"{sheet.title}: nothing.\n"
    rows = [[column.name for column in sheet.columns], *([text(cell) for cell in row] for row in sheet.rows)]
    return "".join(f"{line}\n" for line in (sheet.title, *aligned(rows)))


def text(cell: Cell) -> str:
    """A cell in words."""
    if cell is None:
        return ""
    return number_text(cell) if isinstance(cell, float) else f"{cell:f}" if isinstance(cell, Decimal) else str(cell)
