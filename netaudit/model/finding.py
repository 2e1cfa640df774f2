"""What a rule can say of its subject: a finding, not checked, or nothing, which is a pass."""

from __future__ import annotations

from typing import Literal, NamedTuple

from netaudit.citation import Citation
from netaudit.model.place import Place

Severity = Literal["fail", "warn", "note"]
GRAVITY: dict[Severity, int] = {"fail": 0, "warn": 1, "note": 2}
"""The order of severities, the gravest first."""


class Measure(NamedTuple):
    """A number with its unit."""

    value: float
    unit: str
    """m, bit/s, dB, °C and so on; empty for a count."""


class Finding(NamedTuple):
    """Something that is wrong, doubtful or worth knowing at one place of a plan."""

    rule: str
    severity: Severity
    where: tuple[Place, ...]
    """The deciding place first, then whatever else takes part."""
    message: str
    """What is the matter, in one sentence with the number that proves it."""
    remedy: str
    """What to do about it, for this very case."""
    source: Citation
    measured: Measure | None = None
    """What the plan has."""
    limit: Measure | None = None
    """What the source allows."""
    line: int | None = None
    """Line of the first place in the plan's file; filled in when a report is gathered."""


class NotChecked(NamedTuple):
    """A judgement that lacked a fact."""

    rule: str
    where: tuple[Place, ...]
    reason: str
    """The fact that is missing."""
    decides: str
    """The one thing to find out, and how it would decide."""


Judgement = Finding | NotChecked | None
"""The answer of one rule on one subject; None is a pass."""
