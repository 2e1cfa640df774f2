"""Power: what modules and ports draw, and what cages give."""

from __future__ import annotations

from functools import cache
from typing import Literal, NamedTuple, cast

from netaudit.citation import Citation
from netaudit.standards.reading import table

PowerKind = Literal["module", "level", "port"]
"""module: what a module draws · level: what a cage of a level or class gives · port: what a built-in port draws."""


class Power(NamedTuple):
    """What one module or port draws, or one level of cage gives."""

    kind: PowerKind
    form: str
    """Cage or connector it is for; any for every cage."""
    name: str
    """Physical layer, level or class."""
    process_nm: int | None
    """Structure of the chip in a port [nm]; None where that is not what it goes by."""
    typical_w: float | None
    """What is usual [W]; None where one figure is given."""
    most_w: float
    """What to plan with [W]."""
    source: Citation


@cache
def powers() -> tuple[Power, ...]:
    """Every figure of power, modules first."""
    return tuple(
        Power(
            kind=cast("PowerKind", row.text("kind")),
            form=row.text("form"),
            name=row.text("name"),
            process_nm=row.optional_whole("process_nm"),
            typical_w=row.optional_number("typical_w"),
            most_w=row.number("most_w"),
            source=row.citation(),
        )
        for row in table("power.csv")
    )


@cache
def module_power(form: str, phy: str) -> Power | None:
    """What a module for a cage (sfp+) and a physical layer (10GBASE-SR) draws; None where no figure is published."""
    return next((power for power in powers() if power[:3] == ("module", form, phy)), None)
