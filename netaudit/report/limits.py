"""Limits in each form: plain for pipes, a table on a terminal, JSON in the format netaudit.limits/1."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any, TextIO

from netaudit.citation import Citation
from netaudit.model.limits import Cell, Column, LimitAnswer, LimitTable
from netaudit.report.columns import aligned
from netaudit.report.words import cited
from netaudit.units import measure_text

if TYPE_CHECKING:
    from rich.table import Table

FORMAT = "netaudit.limits/1"
NOTHING = "-"
"""Stands where a table has no figure."""
SPELT_BY_UNITS = frozenset({"bit/s", "m", "°C"})
"""Units whose numbers are rounded for people; all others are figures of a formula, shown as published."""


def as_json(answer: LimitAnswer) -> str:
    """The answer as JSON; ends with a line feed."""
    import json  # noqa: PLC0415 - text never pays for it

    return json.dumps(document(answer), ensure_ascii=False, indent=2) + "\n"


def document(answer: LimitAnswer) -> dict[str, Any]:
    """The answer as plain values; a cell without a figure is null."""
    return {
        "format": FORMAT,
        "asked": list(answer.asked),
        "index": [{"words": list(line.words), "about": line.about} for line in answer.index],
        "tables": [
            {
                "title": table.title,
                "columns": [{"name": column.name, "unit": column.unit} for column in table.columns],
                "rows": [{"cells": list(row.cells), "source": row.source._asdict()} for row in table.rows],
                "notes": list(table.notes),
            }
            for table in answer.tables
        ],
    }


def plain(answer: LimitAnswer) -> str:
    """The answer as plain text: stable, unwrapped, each row with the number of its source; ends with a line feed."""
    notes = _Footnotes()
    parts = [
        *([list(_index_lines(answer))] if answer.index else []),
        *(list(_lines(one, notes)) for one in answer.tables),
    ]
    if notes.numbers:
        parts.append(list(notes.lines()))
    return "\n\n".join("\n".join(lines) for lines in parts) + "\n"


class _Footnotes:
    """The sources of an answer, numbered in the order in which they come up."""

    def __init__(self) -> None:
        self.numbers: dict[Citation, int] = {}

    def of(self, source: Citation) -> int:
        """The number of a source."""
        return self.numbers.setdefault(source, len(self.numbers) + 1)

    def lines(self) -> Iterator[str]:
        """A heading, and each source with its number."""
        yield "Sources"
        for source, number in self.numbers.items():
            yield f"  [{number}] {cited(source)}"


def _index_lines(answer: LimitAnswer) -> Iterator[str]:
    yield "What can be asked: netaudit limits WORD..."
    for line in answer.index:
        yield f"  {', '.join(line.words)}: {line.about}"


def _lines(table: LimitTable, notes: _Footnotes) -> Iterator[str]:
    yield table.title
    yield from (f"  {note}." for note in table.notes)
    yield from aligned((_head(table), *_texts(table, notes)))


def _head(table: LimitTable) -> tuple[str, ...]:
    return (*(column.name for column in table.columns), "standing", "source")


def _texts(table: LimitTable, notes: _Footnotes) -> Iterator[tuple[str, ...]]:
    """A line for each row; neighbours that differ in their source alone share one."""
    for cells, rows in groupby(table.rows, key=lambda row: row.cells):
        sources = list(dict.fromkeys(row.source for row in rows))
        standings = dict.fromkeys(source.standing for source in sources)
        texts = (_text(cell, column) for cell, column in zip(cells, table.columns, strict=True))
        yield (*texts, ", ".join(standings), _spans([notes.of(source) for source in sources]))


def _spans(numbers: Sequence[int]) -> str:
    """Numbers of sources, neighbours as a span: [1] [4-7]."""
    spans: list[list[int]] = []
    for number in sorted(numbers):
        if spans and number == spans[-1][-1] + 1:
            spans[-1].append(number)
        else:
            spans.append([number])
    return " ".join(f"[{span[0]}]" if len(span) == 1 else f"[{span[0]}-{span[-1]}]" for span in spans)


def _text(cell: Cell, column: Column) -> str:
    if cell is None:
        return NOTHING
    if isinstance(cell, str) or column.unit is None:
        return str(cell)
    if column.unit in SPELT_BY_UNITS:
        return measure_text(cell, column.unit)
    return f"{cell:.10g} {column.unit}".rstrip()


def show(answer: LimitAnswer, file: TextIO, width: int | None = None) -> None:
    """Write the answer to a terminal; `width` in columns stands in for the terminal's own."""
    from rich.console import Console  # noqa: PLC0415 - pipes never pay for it
    from rich.text import Text  # noqa: PLC0415 - as above

    console = Console(file=file, width=width, highlight=False, emoji=False, markup=False)
    for line in _index_lines(answer) if answer.index else ():
        console.print(Text(line))
    notes = _Footnotes()
    for place, table in enumerate(answer.tables):
        if place or answer.index:
            console.print()
        console.print(Text(table.title, style="bold"))
        for note in table.notes:
            console.print(Text(f"{note}.", style="dim"))
        console.print(_grid(table, notes))
    if notes.numbers:
        console.print()
        for line in notes.lines():
            console.print(Text(line, style="dim"))


def _grid(table: LimitTable, notes: _Footnotes) -> Table:
    from rich.table import Table  # noqa: PLC0415 - pipes never pay for it
    from rich.text import Text  # noqa: PLC0415 - as above

    grid = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="dim")
    for name in _head(table):
        grid.add_column(name)
    for *cells, source in _texts(table, notes):
        grid.add_row(*map(Text, cells), Text(source, style="dim"))
    return grid
