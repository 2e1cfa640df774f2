"""A rule explained, or all rules in a line each: as plain text, on a terminal, and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any, Literal, NamedTuple, TextIO

from netaudit.citation import OBSERVED, Standing
from netaudit.model.explanation import Explanation, LiveExplanation, RuleOutline
from netaudit.model.finding import Finding, Severity
from netaudit.report import words
from netaudit.report.values import finding_values, source_values

FORMAT = "netaudit.explanation/1"
FORMAT_OF_LIVE = "netaudit.live-explanation/1"
FORMAT_OF_LIST = "netaudit.rules/1"

SEVERITIES: dict[Severity, str] = {"fail": "fails a plan", "warn": "a warning", "note": "worth knowing"}
"""What a rule does to a plan, in words."""
LIVE_SEVERITIES: dict[Severity, str] = {**SEVERITIES, "fail": "fails a probe"}
"""What a live rule does to a probe, in words."""
STANDINGS: dict[Standing, str] = {
    "read": "read in the document itself",
    "secondary": "read in a text that quotes it",
    "computed": "computed from published figures",
    "memory": "from memory, so that it can only warn",
    "common practice": "common practice, so that it can only warn",
    "plan": "no published figure is needed",
}
"""How a source is known, in words."""
ASKED = "no published figure is needed"
"""The same of what a probe saw."""

Tone = Literal["plain", "title", "heading", "dim", "fault", "good", "fail", "warn", "note"]
_STYLES: dict[Tone, str] = {
    "plain": "", "title": "bold", "heading": "bold cyan", "dim": "dim", "fault": "bold red", "good": "green",
    "fail": "bold red", "warn": "bold yellow", "note": "bold cyan",
}  # fmt: skip


class Row(NamedTuple):
    """A line of text behind what stands in its margin; on a terminal the text wraps within its own column."""

    margin: str
    text: str = ""
    tone: Tone = "plain"


def explanation_rows(explained: Explanation) -> Iterator[Row]:
    """Everything about one rule."""
    yield from _opening(explained, SEVERITIES)
    yield from _heading("A plan in which it strikes")
    yield from _example_rows(explained)
    yield from _heading("What check says of it")
    yield from _finding_rows(explained.findings)
    yield from _cure_rows(explained)
    yield from _source_rows(explained)


def live_rows(explained: LiveExplanation) -> Iterator[Row]:
    """Everything about one live rule."""
    yield from _opening(explained, LIVE_SEVERITIES)
    yield from _heading("A desk at which it strikes")
    yield Row("  ", explained.story)
    yield from _heading("What probe says of it")
    yield Row("  ", explained.answer)
    yield from _finding_rows(explained.findings)
    yield from _heading("The same desk in order")
    rule = explained.outline.name
    strikes = f"{rule} still strikes" if explained.left else f"{rule} says nothing"
    yield Row("  ", f"{strikes}: {explained.cured_answer}")
    yield from _source_rows(explained)


def _opening(explained: Explanation | LiveExplanation, severities: Mapping[Severity, str]) -> Iterator[Row]:
    outline = explained.outline
    yield Row("", f"{outline.name} ({outline.family}): {severities[outline.severity]}", "title")
    yield Row("")
    yield Row("  looks for  ", outline.what)
    yield Row("  because    ", explained.why)
    yield Row("  to do      ", explained.todo)


def _finding_rows(findings: Iterable[Finding]) -> Iterator[Row]:
    for finding in findings:
        line = "" if finding.line is None else f", line {finding.line}"
        yield Row("  ", f"{finding.severity}: {finding.rule} at {finding.where[0]}{line}", finding.severity)
        yield Row("    ", f"{finding.message}.")
        yield Row("    ", f"{words.evidence(finding)}.", "dim")
        yield Row("    ", f"To do: {finding.remedy}", "title")


def _source_rows(explained: Explanation | LiveExplanation) -> Iterator[Row]:
    yield from _heading("Where its limits come from")
    for source in explained.sources:
        how = ASKED if source == OBSERVED else STANDINGS[source.standing]
        yield Row("  ", f"{words.cited(source)} ({how})")


def outline_rows(outlines: Sequence[RuleOutline]) -> Iterator[Row]:
    """Every rule in a line, by family."""
    yield Row("", f"{len(outlines)} rules: netaudit explain RULE shows one strike, and cures it.", "title")
    yield Row("", "fail fails a plan or a probe, warn is a warning, note is worth knowing.")
    width = max(len(outline.name) for outline in outlines)
    for family, members in groupby(outlines, key=lambda outline: outline.family):
        yield from _heading(family)
        for outline in members:
            yield Row(f"  {outline.name.ljust(width)}  {outline.severity}  ", outline.what)


def _heading(text: str) -> tuple[Row, Row]:
    return Row(""), Row("", text, "heading")


def _example_rows(explained: Explanation) -> Iterator[Row]:
    faulty = {changed.line for changed in explained.cure}
    for number, line in enumerate(explained.example.splitlines(), 1):
        is_faulty = number in faulty
        yield Row(f"{'>' if is_faulty else ' '} {number:>3}  ", line, "fault" if is_faulty else "plain")


def _cure_rows(explained: Explanation) -> Iterator[Row]:
    yield from _heading("The same plan, cured")
    for changed in explained.cure:
        yield Row(f"> {changed.line:>3}  ", changed.text or "(this line goes)", "good")
    rule = explained.outline.name
    strikes = f"{rule} still strikes" if explained.left else f"{rule} no longer strikes"
    failing = explained.cured.summary.fail
    fails = f"{failing} {'thing fails' if failing == 1 else 'things fail'}" if failing else "nothing fails"
    yield Row("  ", f"{strikes}, and {fails}: {words.sentence(explained.cured)}")


def plain_rows(rows: Iterable[Row]) -> str:
    """Rows as text for pipes and files: stable, unwrapped, without colour; ends with a line feed."""
    return "".join(f"{row.margin}{row.text}".rstrip() + "\n" for row in rows)


def show_rows(rows: Iterable[Row], file: TextIO, width: int | None = None) -> None:
    """Write rows to a terminal, each wrapped beside its margin; `width` in columns stands in for the terminal's own."""
    from rich.console import Console  # noqa: PLC0415 - pipes never pay for it
    from rich.table import Table  # noqa: PLC0415 - as above
    from rich.text import Text  # noqa: PLC0415 - as above

    console = Console(file=file, width=width, highlight=False, emoji=False, markup=False, soft_wrap=False)
    for row in rows:
        text = Text(row.text, style=_STYLES[row.tone])
        if not row.margin:
            console.print(text)
            continue
        beside = Table.grid()
        beside.add_column(overflow="fold", max_width=max(1, console.width // 2))
        beside.add_column(overflow="fold")
        beside.add_row(row.margin, text)
        console.print(beside)


def explanation_json(explained: Explanation) -> str:
    """One rule; ends with a line feed."""
    values = {
        "format": FORMAT,
        **_common_values(explained),
        "example": {
            "plan": explained.example,
            "sentence": words.sentence(explained.struck),
            "findings": [finding_values(finding) for finding in explained.findings],
        },
        "cure": {
            "lines": [changed._asdict() for changed in explained.cure],
            "sentence": words.sentence(explained.cured),
            "verdict": explained.cured.summary.verdict,
            "findings": [finding_values(finding) for finding in explained.left],
        },
    }
    return _json_text(values)


def live_json(explained: LiveExplanation) -> str:
    """One live rule; ends with a line feed."""
    values = {
        "format": FORMAT_OF_LIVE,
        **_common_values(explained),
        "example": {
            "story": explained.story,
            "sentence": explained.answer,
            "findings": [finding_values(finding) for finding in explained.findings],
        },
        "cure": {
            "sentence": explained.cured_answer,
            "findings": [finding_values(finding) for finding in explained.left],
        },
    }
    return _json_text(values)


def _common_values(explained: Explanation | LiveExplanation) -> dict[str, Any]:
    """What every rule has to say for itself."""
    return {
        **explained.outline._asdict(),
        "why": explained.why,
        "todo": explained.todo,
        "sources": [source_values(source) for source in explained.sources],
    }


def outlines_json(outlines: Sequence[RuleOutline]) -> str:
    """Every rule; ends with a line feed."""
    return _json_text({"format": FORMAT_OF_LIST, "rules": [outline._asdict() for outline in outlines]})


def _json_text(values: dict[str, Any]) -> str:
    return json.dumps(values, ensure_ascii=False, indent=2) + "\n"
