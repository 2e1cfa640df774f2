"""The report: everything that judging one plan brought to light."""

from __future__ import annotations

from typing import Literal, NamedTuple

from netaudit.model.finding import Finding, NotChecked
from netaudit.model.path import Path

Verdict = Literal["pass", "incomplete", "fail"]


class JudgedPath(NamedTuple):
    """A road with what the findings on it come to."""

    path: Path
    verdict: Verdict


class Summary(NamedTuple):
    """The counts of a report."""

    verdict: Verdict
    """fail: something fails · incomplete: nothing fails, but a planned road cannot be fully judged."""
    fail: int
    warn: int
    note: int
    not_checked: int
    """Places at which something was not checked."""
    checked: int
    """Judgements that were made."""


class Report(NamedTuple):
    """The verdict on one plan."""

    file: str
    """The plan's file as the caller named it."""
    name: str | None
    headroom: float
    """Share of goodput that the plan keeps free [0 to 1]."""
    assumed: tuple[str, ...]
    summary: Summary
    paths: tuple[JudgedPath, ...]
    findings: tuple[Finding, ...]
    """The gravest first, then in the order of the rules and of the plan."""
    not_checked: tuple[NotChecked, ...]

    @property
    def exit_code(self) -> int:
        """0 when nothing failed, 1 otherwise."""
        return 1 if self.summary.fail else 0
