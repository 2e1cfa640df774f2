"""A rule as it is taught: what it looks for, a plan or a desk at which it strikes, and the same one in order."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.model.finding import Finding, Severity
from netaudit.model.report import Report


class RuleOutline(NamedTuple):
    """A rule in one line."""

    name: str
    family: str
    severity: Severity
    what: str
    """What it looks for."""


class ChangedLine(NamedTuple):
    """A line of a plan as it should be."""

    line: int
    """Its number, counted from 1."""
    text: str
    """The right line; blank where it is to go."""


class Explanation(NamedTuple):
    """All that a rule has to say for itself, with the proof on an example."""

    outline: RuleOutline
    why: str
    """Why that matters."""
    todo: str
    """What to do when it strikes."""
    sources: tuple[Citation, ...]
    """Every source that its limits may come from, each once."""
    example: str
    """The text of a plan in which it strikes."""
    struck: Report
    """The verdict on that plan."""
    cure: tuple[ChangedLine, ...]
    """What has to change in it."""
    cured: Report
    """The verdict on the plan with that change."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the rule finds in the example."""
        return self._own(self.struck)

    @property
    def left(self) -> tuple[Finding, ...]:
        """What it still finds in the cured plan."""
        return self._own(self.cured)

    def _own(self, report: Report) -> tuple[Finding, ...]:
        return tuple(finding for finding in report.findings if finding.rule == self.outline.name)


class LiveExplanation(NamedTuple):
    """All that a live rule has to say for itself, with the proof on two probes of one desk."""

    outline: RuleOutline
    why: str
    """Why that matters."""
    todo: str
    """What to do when it strikes."""
    sources: tuple[Citation, ...]
    """Every source that its limits may come from, each once."""
    story: str
    """What is wrong at the desk, in a sentence."""
    answer: str
    """What probe says there first."""
    findings: tuple[Finding, ...]
    """What the rule finds there."""
    cured_answer: str
    """What probe says first when the desk is in order."""
    left: tuple[Finding, ...]
    """What the rule still finds then."""
