"""The sources that live rules share, and a bound that has none."""

from __future__ import annotations

from netaudit.citation import OBSERVED, Citation

PRACTICE = Citation("what is worth acting on, as people who look after such rooms tell it", None, "common practice")
"""The source of bounds that nobody publishes."""


def observed() -> tuple[Citation, ...]:
    """The source of rules that rest on what was seen alone."""
    return (OBSERVED,)


def practice() -> tuple[Citation, ...]:
    """The sources of rules whose bounds are custom."""
    return (PRACTICE, OBSERVED)
