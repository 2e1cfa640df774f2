"""Open lengths: which fact about the room would make a length known, so that nobody has to measure."""

from __future__ import annotations

from collections.abc import Sequence

from netaudit.calculations.run_facts import missing_facts
from netaudit.listing import NAMES_AT_MOST, listed
from netaudit.model.plan import Plan


def length_remarks(plan: Plan) -> tuple[str, ...]:
    """A sentence for each missing fact with the cables that wait for it; the first few, the other cables counted."""
    waiting: dict[str, list[str]] = {}
    for cable, fact in missing_facts(plan):
        waiting.setdefault(fact, []).append(cable)
    told = [_told(fact, cables) for fact, cables in waiting.items()]
    others = sum(len(cables) for cables in list(waiting.values())[NAMES_AT_MOST:])
    if others:
        cables_wait = "1 more cable waits" if others == 1 else f"{others} more cables wait"
        return (*told[:NAMES_AT_MOST], f"{cables_wait} for other facts about racks and rooms to have a length.")
    return tuple(told)


def _told(fact: str, cables: Sequence[str]) -> str:
    follows = "its length follows" if len(cables) == 1 else "their lengths follow"
    return f"{listed(cables)}: give the {fact}, and {follows}."
