"""Runs: what a cable needs beyond its route, in racks, at outlets and in rooms."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, NamedTuple, cast

from netaudit.citation import Citation
from netaudit.standards.reading import table
from netaudit.units import MM_PER_M

RunPlace = Literal["rack", "outlet", "room"]
"""room: a desk, or anything else that is neither an outlet nor in a rack."""
RunPart = Literal["ceiling", "panel width", "slack at a plug", "service loop", "drop"]
"""ceiling: how high above the floor a route ends over a rack, which is reached from there down to its top."""
RunCable = Literal["any", "twisted pair", "other"]


class Allowance(NamedTuple):
    """A length that some place asks for."""

    place: RunPlace
    part: RunPart
    cable: RunCable
    """Cable that it is for."""
    length_mm: float
    """Length [mm]."""
    source: Citation


@cache
def allowances() -> Mapping[tuple[RunPlace, RunPart, RunCable], Allowance]:
    """Every allowance by its place, its part and the cable that it is for."""
    rows = (
        Allowance(
            place=cast("RunPlace", row.text("place")),
            part=cast("RunPart", row.text("part")),
            cable=cast("RunCable", row.text("cable")),
            length_mm=row.number("length_mm"),
            source=row.citation(),
        )
        for row in table("run_allowances.csv")
    )
    return {row[:3]: row for row in rows}


def allowance_m(place: RunPlace, part: RunPart, cable: RunCable = "any") -> float:
    """The length that a place asks for [m]."""
    return allowances()[place, part, cable].length_mm / MM_PER_M
