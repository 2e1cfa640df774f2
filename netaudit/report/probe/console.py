"""A probe's answer on a terminal: coloured where the terminal is, and as wide."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TextIO

from rich.cells import cell_len
from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.text import Text

from netaudit.model.diagnosis import Diagnosis
from netaudit.report import words
from netaudit.report.probe.causes import cause_lines, other_causes, told_above
from netaudit.report.probe.gaps import gaps
from netaudit.report.probe.sections import because, counts, sections
from netaudit.report.probe.spelling import begun, clean
from netaudit.report.probe.tables import Row, Table
from netaudit.report.probe.words import sentence

_SEVERITY_STYLES = {"fail": "bold red", "warn": "bold yellow", "note": "bold cyan"}
_GAP = 2
"""Blanks between two columns."""


def show(diagnosis: Diagnosis, file: TextIO, width: int | None = None) -> None:
    """Write the whole answer to a terminal; `width` in columns stands in for the terminal's own."""
    show_sentence(diagnosis, file, width)
    show_rest(diagnosis, file, width)


def show_sentence(diagnosis: Diagnosis, file: TextIO, width: int | None = None) -> None:
    """Write the sentence alone, which can be told before all is known."""
    _console(file, width).print(_text(sentence(diagnosis.situation), "bold"))


def show_rest(diagnosis: Diagnosis, file: TextIO, width: int | None = None) -> None:
    """Write what follows the sentence, where that was told at once."""
    console = _console(file, width)
    for part in _parts(diagnosis, console.width):
        console.print(part)


def _console(file: TextIO, width: int | None) -> Console:
    return Console(file=file, width=width, highlight=False, emoji=False, markup=False, soft_wrap=False)


def _text(text: str, style: str = "") -> Text:
    return Text(clean(text), style=style)


def _indented(text: str, style: str = "", depth: int = 2) -> Padding:
    return Padding(_text(text, style), (0, 0, 0, depth), expand=False)


def _parts(diagnosis: Diagnosis, width: int) -> Iterator[RenderableType]:
    for line in cause_lines(diagnosis):
        yield _text(line, "bold" if line.startswith("To do:") else "")
    yield from _list("What goes with the likeliest cause", [f"- {piece}." for piece in because(diagnosis)])
    yield from _list("What else may be to blame", [f"{cause}." for cause in other_causes(diagnosis)])
    for table in sections(diagnosis):
        yield Text()
        yield _text(table.title, "bold cyan")
        yield from _table(table, width)
    yield from _findings(diagnosis)
    for gap in gaps(diagnosis):
        yield Text()
        yield Text.assemble(("not checked", "bold yellow"), " ", clean(gap.what))
        yield _indented(f"{gap.why}.")
        yield _indented(f"Next step: {gap.decides}.", "bold")
    yield Text()
    yield _text(counts(diagnosis), "dim")


def _list(title: str, lines: list[str]) -> Iterator[RenderableType]:
    """A heading with lines beneath, where there are any."""
    if lines:
        yield Text()
        yield _text(title, "bold cyan")
        yield from (_indented(line) for line in lines)


def _findings(diagnosis: Diagnosis) -> Iterator[RenderableType]:
    for finding in diagnosis.findings:
        told = told_above(diagnosis, finding)
        where = f"{clean(str(finding.where[0]))}{told}"
        yield Text()
        yield Text.assemble((finding.severity, _SEVERITY_STYLES[finding.severity]), f" {finding.rule} at {where}")
        yield from () if told else (_indented(f"{begun(finding.message)}."),)
        yield _indented(f"{words.evidence(finding)}.", "dim")
        yield from () if told else (_indented(f"To do: {finding.remedy}", "bold"),)


def _table(table: Table, width: int) -> Iterator[RenderableType]:
    """Rows in columns where they fit, each with its finer facts beneath; else each fact with its name."""
    lines = [tuple(map(clean, row.cells)) for row in table.rows]
    widths = [max(map(cell_len, column)) for column in zip(*([table.head] if table.head else []), *lines, strict=True)]
    fits = _GAP + sum(widths) + _GAP * (len(widths) - 1) <= width
    if fits and table.head:
        yield _indented(_line(table.head, widths), "dim")
    for cells, row in zip(lines, table.rows, strict=True):
        yield _indented(_line(cells, widths) if fits or not table.head else cells[0])
        finer = row.finer if fits or not table.head else (*_named(table, row), *row.finer)
        if finer:
            yield _indented("; ".join(finer), "dim", depth=2 * _GAP)


def _line(cells: tuple[str, ...], widths: list[int]) -> str:
    padded = [cell + " " * (width - cell_len(cell)) for cell, width in zip(cells, widths, strict=True)]
    return (" " * _GAP).join(padded).rstrip()


def _named(table: Table, row: Row) -> tuple[str, ...]:
    """The cells of a row behind the first, each with the name of its column."""
    return tuple(f"{name} {cell}" for name, cell in zip(table.head[1:], row.cells[1:], strict=True))
