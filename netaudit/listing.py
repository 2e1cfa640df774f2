"""Listing: names in a row, the many counted."""

from __future__ import annotations

from collections.abc import Iterable

NAMES_AT_MOST = 8
"""Names told in one row before the rest is counted."""
FEW = 4
"""The same where they stand within a sentence that says something else."""


def listed(things: Iterable[object]) -> str:
    """Names in a row: W01, C01 and C02; empty for none."""
    return _joined(tuple(things), "and")


def either(things: Iterable[object]) -> str:
    """Names in a row of which one is enough: 2.5 Gb/s or 1 Gb/s; empty for none."""
    return _joined(tuple(things), "or")


def first_few(things: Iterable[object], most: int = FEW) -> str:
    """The first few names, parted by commas alone, and how many more there are: W01, C01, C02, C03 and 5 more."""
    every = tuple(things)
    names = ", ".join(map(str, every[:most]))
    return names if len(every) <= most else f"{names} and {len(every) - most} more"


def _joined(every: tuple[object, ...], last: str) -> str:
    if len(every) > NAMES_AT_MOST:
        return first_few(every, NAMES_AT_MOST)
    names = [str(thing) for thing in every]
    return f"{', '.join(names[:-1])} {last} {names[-1]}" if len(names) > 1 else "".join(names)
