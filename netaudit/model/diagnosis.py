"""A diagnosis: a situation with what the live rules make of it."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.model.finding import Finding, NotChecked
from netaudit.model.observation import Observation
from netaudit.model.situation import Situation


class Cause(NamedTuple):
    """Something that explains what is wrong."""

    cause: str
    """Name of the rule."""
    because: tuple[str, ...]
    """Every piece of evidence, the strongest first."""


class Diagnosis(NamedTuple):
    """The answer of a probe."""

    situation: Situation
    findings: tuple[Finding, ...] = ()
    """The gravest first."""
    not_checked: tuple[NotChecked, ...] = ()
    causes: tuple[Cause, ...] = ()
    """The likeliest first."""
    checked: int = 0
    """Judgements that were made."""
    expected_bit_per_s: int | None = None
    """What this chain should carry for one reader [bit/s]."""
    expected_by: str | None = None
    """The narrowest thing in it, in words."""

    @property
    def observation(self) -> Observation:
        """What was seen."""
        return self.situation.seen

    @property
    def exit_code(self) -> int:
        """1 where something fails, 0 otherwise."""
        return 1 if any(finding.severity == "fail" for finding in self.findings) else 0
