"""A bill on a terminal: coloured where the terminal is, and as wide."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TextIO

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from netaudit.model.bill import Bill
from netaudit.report.bill.sections import Section, sections
from netaudit.report.bill.sheet import Column, Sheet
from netaudit.report.bill.sheets.cells import in_words
from netaudit.report.bill.words import MORE, nothing, sentence, standing
from netaudit.report.words import title


def show(bill: Bill, file: TextIO, width: int | None = None) -> None:
    """Write a bill to a terminal; `width` in columns stands in for the terminal's own."""
    console = _console(file, width)
    for part in _parts(bill):
        console.print(part)


def show_sheet(sheet: Sheet, file: TextIO, width: int | None = None) -> None:
    """Write one sheet to a terminal."""
    console = _console(file, width)
    if not sheet.rows:
        console.print(Text(nothing(sheet)))
        return
    console.print(Text(sheet.title, style="bold"))
    console.print(_table(sheet.columns, [list(map(in_words, row)) for row in sheet.rows]))


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
    table = _table(section.columns, section.rows)
    table.show_header = section.headed
    return table


def _table(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="dim")
    for column in columns:
        table.add_column(column.name, justify="right" if column.number else "left", overflow="fold")
    for row in rows:
        table.add_row(*map(Text, row))
    return table
