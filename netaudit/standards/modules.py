"""Modules that put twisted pair into a cage: how far they reach, what they draw, and what a cage gives."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.power import Power, powers
from netaudit.standards.reading import Row, table


class CopperModule(NamedTuple):
    """What makers say of the modules of one physical layer over twisted pair."""

    phy: str
    reach_m: float
    """How far they reach, however far the physical layer does [m]."""
    source: Citation
    """Of the reach."""
    power: Power
    """What one draws."""
    cage: Power
    """What a cage gives at the highest level that its standard names."""


@cache
def copper_modules() -> Mapping[str, CopperModule]:
    """Modules for twisted pair by physical layer, as far as they fall short of it or of their cage."""
    return {
        row.text("phy"): CopperModule(
            phy=row.text("phy"),
            reach_m=row.number("reach_m"),
            source=row.citation(),
            power=_power(row, "module", row.text("phy")),
            cage=_power(row, "level", row.text("cage_level")),
        )
        for row in table("copper_modules.csv")
    }


def _power(row: Row, kind: str, name: str) -> Power:
    return next(power for power in powers() if power[:3] == (kind, row.text("form"), name))
