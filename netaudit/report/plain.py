"""A report as plain text for pipes and files: stable, unwrapped, without colour."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.listing import listed
from netaudit.model.report import Report
from netaudit.report import words
from netaudit.report.columns import aligned


def plain(report: Report) -> str:
    """The whole report; ends with a line feed."""
    return "\n".join(_lines(report)) + "\n"


def _lines(report: Report) -> Iterator[str]:
    yield words.sentence(report)
    yield from words.standing_lines(report)
    yield ""
    yield words.title(report.name, report.file)
    rows = _rows(report)
    if rows:
        yield from aligned((_head(report), *rows))
    for finding in report.findings:
        line = "" if finding.line is None else f", line {finding.line}"
        yield ""
        yield f"{finding.severity}: {finding.rule} at {', '.join(map(str, finding.where[:1]))}{line}"
        yield f"  {finding.message}."
        yield f"  {words.evidence(finding)}."
        yield f"  To do: {finding.remedy}"
    for reason, places, rules, decides in words.gaps(report.not_checked):
        yield ""
        yield f"not checked: {listed(rules)} at {listed(places)}"
        yield f"  {reason}."
        yield f"  Would decide: {decides}."
    yield ""
    if report.assumed:
        yield f"Taken for granted: {'; '.join(report.assumed)}."
    yield words.counts(report)


def _head(report: Report) -> tuple[str, ...]:
    return ("seat", "state", "road", "narrowest", "alone", "all seats at once", words.kept_free(report.headroom))


def _rows(report: Report) -> list[tuple[str, ...]]:
    return [
        (
            judged.path.station,
            words.STATES[judged.verdict],
            words.road(judged.path),
            words.narrowest(judged.path),
            words.alone(judged.path),
            words.together(judged.path),
            words.usable(judged.path, report.headroom),
        )
        for judged in report.paths
        if judged.path.planned
    ]
