"""A bill on a terminal: coloured where the terminal is, and as wide."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TextIO

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from netaudit.model.bill import Bill
from netaudit.report.bill.plain import MORE, text
from netaudit.report.bill.sections import Section, sections, sentence, standing
from netaudit.report.bill.sheet import Sheet
from netaudit.report.words import title

_NUMBERS = frozenset({"order", "needed", "spare", "price of one", "in all", "left", "holds", "length", "free", "of"})
"""Heads of columns that stand to the right."""


def show(bill: Bill, file: TextIO, width: int | None = None) -> None:
    """Write a bill to a terminal; `width` in columns stands in for the terminal's own."""
    console = _console(file, width)
    for part in _parts(bill):
        console.print(part)


def show_sheet(sheet: Sheet, file: TextIO, width: int | None = None) -> None:
    """Write one sheet to a terminal."""
    console = _console(file, width)
    console.print(Text(sheet.title, style="bold"))
    console.print(
        _table(
            [(column.name, column.number) for column in sheet.columns],
            [[text(cell) for cell in row] for row in sheet.rows],
        )
    )


def _console(file: TextIO, width: int | None) -> Console:
    return Console(file=file, width=width, highlight=False, emoji=False, markup=False, soft_wrap=False)


def _parts(bill: Bill) -> Iterator[RenderableType]:
    yield Text(sentence(bill), style="bold")
    for line in standing(bill):
        yield Text(line)
    yield Text()
    yield Text(title(bill.plan, bill.file), style="dim")
    for section in sections(bill):
        yield Text()
        yield Text(section.title, style="bold cyan")
        if section.rows:
            yield Padding(_section_table(section), (0, 0, 0, 2), expand=False)
        for line in section.lines:
            yield Padding(Text(line), (0, 0, 0, 2), expand=False)
    yield Text()
    yield Text(MORE, style="dim")


def _section_table(section: Section) -> Table:
    heads = section.head or ("",) * len(section.rows[0])
    return _table([(head, head in _NUMBERS) for head in heads], section.rows, headed=bool(section.head))


def _table(columns: Sequence[tuple[str, bool]], rows: Sequence[Sequence[str]], *, headed: bool = True) -> Table:
    """A table of columns, each with its head and whether it holds numbers."""
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="dim", show_header=headed)
    for head, number in columns:
        table.add_column(head, justify="right" if number else "left", overflow="fold")
    for row in rows:
        table.add_row(*map(Text, row))
    return table
