"""A report on a terminal: coloured where the terminal is, and as wide."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TextIO

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from netaudit.listing import listed
from netaudit.model.report import Report, Verdict
from netaudit.report import words

_SEVERITY_STYLES = {"fail": "bold red", "warn": "bold yellow", "note": "bold cyan"}
_STATE_STYLES: dict[Verdict, str] = {"pass": "green", "incomplete": "yellow", "fail": "bold red"}


def show(report: Report, file: TextIO, width: int | None = None) -> None:
    """Write a report to a terminal; `width` in columns stands in for the terminal's own."""
    console = Console(file=file, width=width, highlight=False, emoji=False, markup=False, soft_wrap=False)
    for part in _parts(report):
        console.print(part)


def _parts(report: Report) -> Iterator[RenderableType]:
    yield Text(words.sentence(report), style="bold")
    for line in words.standing_lines(report):
        yield Text(line)
    yield Text()
    yield Text(words.title(report.name, report.file), style="dim")
    if any(judged.path.planned for judged in report.paths):
        yield _seats(report)
    for finding in report.findings:
        line = "" if finding.line is None else f", line {finding.line}"
        yield Text()
        yield Text.assemble(
            (finding.severity, _SEVERITY_STYLES[finding.severity]), f" {finding.rule} at {finding.where[0]}{line}"
        )
        yield _indented(f"{finding.message}.")
        yield _indented(f"{words.evidence(finding)}.", "dim")
        yield _indented(f"To do: {finding.remedy}", "bold")
    for reason, places, rules, decides in words.gaps(report.not_checked):
        yield Text()
        yield Text.assemble(("not checked", "bold yellow"), f" {listed(rules)} at {listed(places)}")
        yield _indented(f"{reason}.")
        yield _indented(f"Would decide: {decides}.", "bold")
    yield Text()
    if report.assumed:
        yield Text(f"Taken for granted: {'; '.join(report.assumed)}.", style="dim")
    yield Text(words.counts(report))


def _indented(text: str, style: str = "") -> Padding:
    return Padding(Text(text, style=style), (0, 0, 0, 2), expand=False)


def _seats(report: Report) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="dim")
    table.add_column("seat")
    table.add_column("state")
    table.add_column("road, and its narrowest point", ratio=1)
    table.add_column("alone", justify="right")
    table.add_column("all seats\nat once", justify="right")
    table.add_column(words.kept_free(report.headroom).replace(" kept", "\nkept"), justify="right")
    for judged in report.paths:
        if not judged.path.planned:
            continue
        path = judged.path
        place = Text.assemble(words.road(path), "\n", (words.narrowest(path), "dim"))
        table.add_row(
            Text(path.station),
            Text(words.STATES[judged.verdict], style=_STATE_STYLES[judged.verdict]),
            place,
            _stacked(words.alone(path)),
            _stacked(words.together(path)),
            _stacked(words.usable(path, report.headroom)),
        )
    return table


def _stacked(rates: str) -> Text:
    """Both units of a rate, one above the other."""
    bits, _, octets = rates.partition(" (")
    return Text(f"{bits}\n{octets.removesuffix(')')}")
