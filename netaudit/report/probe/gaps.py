"""What a probe could not find out, merged: what no rule could judge, and what no step could ask."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.listing import listed
from netaudit.model.diagnosis import Diagnosis
from netaudit.model.finding import NotChecked
from netaudit.model.observation import Skipped
from netaudit.report import words


class Gap(NamedTuple):
    """A missing fact, told once."""

    what: str
    """The rules that wanted it and where, or the question."""
    why: str
    decides: str
    """What would tell."""


def gaps(diagnosis: Diagnosis) -> tuple[Gap, ...]:
    """Every missing fact; a question that a rule already misses is told with the rule."""
    missed = [
        Gap(f"{listed(rules)} at {listed(places)}", reason, decides)
        for reason, places, rules, decides in words.gaps(diagnosis.not_checked)
    ]
    asked: dict[tuple[str, str], list[str]] = {}
    for skipped in diagnosis.observation.skipped:
        if not any(_tells(gap, skipped) for gap in diagnosis.not_checked):
            asked.setdefault((skipped.why, skipped.remedy), []).append(skipped.what)
    return (*missed, *(Gap(listed(what), why, decides) for (why, decides), what in asked.items()))


def _tells(gap: NotChecked, skipped: Skipped) -> bool:
    """Whether a rule that wanted a skipped question gives it as its own reason."""
    return gap.rule in skipped.rules and skipped.why in gap.reason
