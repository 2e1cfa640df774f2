"""Gaps of a probe: a question that was not answered, in the words of whoever could not ask it."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.model.observation import Skipped
from netaudit.model.situation import Situation


class Gap(NamedTuple):
    """Why something is not known, and what would tell."""

    reason: str
    decides: str


def gap(rule: str, situation: Situation, reason: str, decides: str) -> Gap:
    """What the probe noted for a rule that it could not serve; without a note the words given."""
    for skipped in situation.seen.skipped:
        if rule in skipped.rules:
            return gap_of(skipped)
    return Gap(reason, decides)


def gap_of(skipped: Skipped) -> Gap:
    """A question that was not answered, as the gap that it leaves."""
    return Gap(f"{skipped.what[:1].upper()}{skipped.what[1:]}: {skipped.why}", skipped.remedy)
