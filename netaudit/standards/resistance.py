"""Resistance of twisted pair: of a conductor by its gauge, and the most that is allowed."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.copper import Figure
from netaudit.standards.reading import table


class ResistanceLimit(NamedTuple):
    """The most resistance, or difference of it, in one part; of two figures the greater counts."""

    part: str
    what: str
    most_ohm: float | None
    most_ohm_per_km: float | None
    most_percent: float | None
    source: Citation


@cache
def conductor_resistance() -> Mapping[int, Figure]:
    """Resistance of a solid copper conductor at 20 °C by its gauge [AWG], in ohm/km."""
    return {
        row.whole("gauge_awg"): Figure(row.number("resistance_ohm_per_km"), row.citation())
        for row in table("conductor_resistance.csv")
    }


@cache
def resistance_limits() -> Mapping[tuple[str, str], ResistanceLimit]:
    """Limits at 20 °C by part and by what is measured."""
    return {
        (row.text("part"), row.text("what")): ResistanceLimit(
            part=row.text("part"),
            what=row.text("what"),
            most_ohm=row.optional_number("most_ohm"),
            most_ohm_per_km=row.optional_number("most_ohm_per_km"),
            most_percent=row.optional_number("most_percent"),
            source=row.citation(),
        )
        for row in table("resistance_limits.csv")
    }
