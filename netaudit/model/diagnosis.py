"""A diagnosis: an observation with what the live rules make of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from netaudit.model.expectation import Expectation
from netaudit.model.finding import Finding, NotChecked
from netaudit.model.machine_state import Evidence
from netaudit.model.observation import Observation
from netaudit.model.place import PortRef
from netaudit.model.vocabulary import Address


class Cause(NamedTuple):
    """Something that explains what is wrong."""

    cause: str
    """Name of the rule."""
    because: tuple[str, ...]
    """Every piece of evidence, the strongest first."""


class Use(NamedTuple):
    """An interface that carries, or would carry, the storage's traffic."""

    interface: str
    evidence: Evidence
    remote: Address | None = None
    local: Address | None = None


class Diagnosis(NamedTuple):
    """The answer of a probe."""

    observation: Observation
    expectation: Expectation | None
    uses: tuple[Use, ...]
    """What carries the traffic, by the surest evidence there is."""
    plan_ports: Mapping[str, PortRef]
    """Interface to the plan's port that it was recognised as."""
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
    def exit_code(self) -> int:
        """1 where something fails, 0 otherwise."""
        return 1 if any(finding.severity == "fail" for finding in self.findings) else 0
