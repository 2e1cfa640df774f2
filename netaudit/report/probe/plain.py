"""A probe's answer as plain text for pipes and files: stable, unwrapped, without colour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.model.diagnosis import Diagnosis
from netaudit.report import words
from netaudit.report.probe.causes import cause_lines, other_causes, told_above
from netaudit.report.probe.gaps import gaps
from netaudit.report.probe.sections import because, counts, sections
from netaudit.report.probe.spelling import begun, clean
from netaudit.report.probe.tables import Table
from netaudit.report.probe.words import sentence


def whole(diagnosis: Diagnosis) -> str:
    """The whole answer; ends with a line feed."""
    return f"{sentence(diagnosis.situation)}\n{rest(diagnosis)}"


def rest(diagnosis: Diagnosis) -> str:
    """What follows the sentence, where that was told at once; ends with a line feed."""
    return "".join(f"{clean(line).rstrip()}\n" for line in _lines(diagnosis))


def _lines(diagnosis: Diagnosis) -> Iterator[str]:
    yield from cause_lines(diagnosis)
    yield from _block("What goes with the likeliest cause", [f"- {piece}." for piece in because(diagnosis)])
    yield from _block("What else may be to blame", [f"{cause}." for cause in other_causes(diagnosis)])
    for table in sections(diagnosis):
        yield from _block(table.title, _columns(table))
    for finding in diagnosis.findings:
        told = told_above(diagnosis, finding)
        yield ""
        yield f"{finding.severity}: {finding.rule} at {finding.where[0]}{told}"
        yield from () if told else (f"  {begun(finding.message)}.",)
        yield f"  {words.evidence(finding)}."
        yield from () if told else (f"  To do: {finding.remedy}",)
    for gap in gaps(diagnosis):
        yield ""
        yield f"not checked: {gap.what}"
        yield f"  {gap.why}."
        yield f"  Next step: {gap.decides}."
    yield ""
    yield counts(diagnosis)


def _block(title: str, lines: Sequence[str]) -> Iterator[str]:
    """A heading with lines beneath, where there are any."""
    if lines:
        yield ""
        yield title
        yield from (f"  {line}" for line in lines)


def _columns(table: Table) -> list[str]:
    """Rows with their finer facts in a last column."""
    rows = [(*map(clean, row.cells), "; ".join(row.finer)) for row in table.rows]
    head = [(*table.head, "")] if table.head else []
    widths = [max(map(len, column)) for column in zip(*head, *rows, strict=True)]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in (*head, *rows)]
