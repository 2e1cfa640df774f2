"""The short main table: how far each rate goes over the media that an edit room meets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.model.limits import Column, LimitRow, LimitTable
from netaudit.standards.copper import copper_reach
from netaudit.standards.fibre import fibre_reach
from netaudit.standards.phys import phys
from netaudit.standards.reading import Citation
from netaudit.standards.twinax import twinax_reach

CATEGORIES = ("5e", "6", "6A", "8.1")
"""Categories that are bought or found in walls, unscreened up to 6A."""
GRADES = ("OM3", "OM4", "OS2")
Reach = tuple[float, str, Citation]
"""Length [m], the physical layer that reaches so far, its source."""


def overview() -> LimitTable:
    """Rate, medium, reach: what is promised by the layer that reaches farthest, without media that add nothing."""
    columns = (
        Column("rate", "bit/s"),
        Column("medium", None),
        Column("promised", "m"),
        Column("physical layer", None),
    )
    rates = sorted({phy.rate_bit_per_s for phy in phys().values()})
    rows = tuple(row for rate_bit_per_s in rates for row in _rows(rate_bit_per_s))
    return LimitTable(
        "How far each rate goes",
        columns,
        rows,
        ("By the layer that reaches farthest; a medium that reaches no farther than a lesser one is left out",),
    )


def _rows(rate_bit_per_s: int) -> Iterator[LimitRow]:
    layers = [phy.name for phy in phys().values() if phy.rate_bit_per_s == rate_bit_per_s]
    copper = [(f"category {one}", _over_copper(layers, one)) for one in CATEGORIES]
    fibre = [(one, _over_fibre(layers, one)) for one in GRADES]
    for family in (copper, fibre, [("twinax", _over_twinax(rate_bit_per_s))]):
        so_far_m = 0.0
        for medium, reaches in family:
            for reach_m, phy, source in sorted(reaches, key=lambda one: -one[0])[:1]:
                if reach_m > so_far_m:
                    yield LimitRow((rate_bit_per_s, medium, reach_m, phy), source)
                    so_far_m = reach_m


def _over_copper(layers: Sequence[str], category: str) -> list[Reach]:
    found = (copper_reach().get((phy, category, False)) for phy in layers)
    return [(row.assured_m, row.phy, row.source) for row in found if row is not None and row.assured_m is not None]


def _over_fibre(layers: Sequence[str], grade: str) -> list[Reach]:
    found = (fibre_reach().get((phy, grade)) for phy in layers)
    return [(row.reach_m, row.phy, row.source) for row in found if row is not None]


def _over_twinax(rate_bit_per_s: int) -> list[Reach]:
    row = twinax_reach().get((rate_bit_per_s, "twinax"))
    return [] if row is None or row.reach_m is None else [(row.reach_m, row.phy or row.kind, row.source)]
