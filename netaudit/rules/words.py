"""Words that rules share: names in a row, the many counted."""

from __future__ import annotations

from collections.abc import Iterable

NAMES_AT_MOST = 8
"""Names told in one row before the rest is counted."""


def listed(things: Iterable[object]) -> str:
    """Names in a row: W01, C01 and C02."""
    return _joined(things, "and")


def either(things: Iterable[object]) -> str:
    """Names in a row of which one is enough: 2.5 Gb/s or 1 Gb/s."""
    return _joined(things, "or")


def steps_text(steps: Iterable[str]) -> str:
    """Steps of which one is enough, as a sentence: Use a shorter cord, or move the switch."""
    text = ", or ".join(steps)
    return f"{text[0].upper()}{text[1:]}."


def are(things: Iterable[object]) -> str:
    """The verb for some things: is, are."""
    return "is" if len(list(things)) == 1 else "are"


def _joined(things: Iterable[object], last: str) -> str:
    names = [str(thing) for thing in things]
    if len(names) > NAMES_AT_MOST:
        return f"{', '.join(names[:NAMES_AT_MOST])} and {len(names) - NAMES_AT_MOST} more"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"
