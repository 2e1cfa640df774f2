"""A rule: what it looks at, how it judges, and what it has to say for itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Generic, Literal, TypeVar

from netaudit.citation import PLAN, Citation
from netaudit.model.finding import Finding, Judgement, Measure, NotChecked, Severity
from netaudit.model.place import Place

Family = Literal["cabling", "ports", "paths", "addresses", "capacity", "rack and power", "live"]
Subject = TypeVar("Subject")
Known = TypeVar("Known")
"""What a rule is told beside its subject: the facts of a plan, or the situation of a machine."""


def from_the_plan() -> tuple[Citation, ...]:
    """The source of a rule that needs no published figure."""
    return (PLAN,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule(Generic[Subject, Known]):
    """One rule, which judges one kind of subject."""

    name: str
    family: Family
    severity: Severity
    """Fixed for the rule; only a figure from memory lowers it."""
    subjects: Callable[[Known], Iterable[Subject]]
    """Everything the rule is asked about; what the plan does not ask for is left out."""
    judge: Callable[[Subject, Known], Judgement]
    """A finding, not checked, or None, which is a pass."""
    what: str
    """What it looks for."""
    why: str
    """Why that matters in an edit room."""
    todo: str
    """What to do when it strikes."""
    sources: Callable[[], Iterable[Citation]] = from_the_plan
    """Every source that its limits may come from."""

    def finding(
        self,
        *where: Place,
        message: str,
        remedy: str,
        source: Citation,
        measured: Measure | None = None,
        limit: Measure | None = None,
    ) -> Finding:
        """A finding of this rule; a limit that is only remembered may not fail a plan."""
        severity: Severity = "warn" if self.severity == "fail" and not source.may_fail else self.severity
        return Finding(
            rule=self.name,
            severity=severity,
            where=where,
            message=message,
            remedy=remedy,
            source=source,
            measured=measured,
            limit=limit,
        )

    def not_checked(self, *where: Place, reason: str, decides: str) -> NotChecked:
        """The lack of a fact, as this rule tells it."""
        return NotChecked(rule=self.name, where=where, reason=reason, decides=decides)
