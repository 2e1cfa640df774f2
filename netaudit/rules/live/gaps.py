"""Gaps of a probe: a question that was not answered, in the words of whoever could not ask it."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.rules.situation import Situation


class Gap(NamedTuple):
    """Why something is not known, and what would tell."""

    reason: str
    decides: str


def gap(rule: str, situation: Situation, reason: str, decides: str) -> Gap:
    """What the probe noted for a rule that it could not serve; without a note the words given."""
    for skipped in situation.seen.skipped:
        if rule in skipped.rules:
            return Gap(f"{_capital(skipped.what)}: {skipped.why}", skipped.remedy)
    return Gap(reason, decides)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
