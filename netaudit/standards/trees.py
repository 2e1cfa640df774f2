"""Spanning trees: what a link of each rate costs on either scale, and the priority of a bridge that nobody set."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from netaudit.model.vocabulary import TreeCosts
from netaudit.standards.copper import Count
from netaudit.standards.reading import table


class TreeCost(NamedTuple):
    """What a link of one rate costs in a spanning tree."""

    rate_bit_per_s: int
    """Rate of the link [bit/s]."""
    long: Count
    """On the scale of 32 bits, which has a figure for every rate."""
    short: Count | None
    """On the older scale of 16 bits; None where it has no figure."""


@cache
def tree_costs() -> Mapping[int, TreeCost]:
    """Cost of a link by its rate [bit/s]."""
    return {
        row.whole("rate_bit_per_s"): TreeCost(
            rate_bit_per_s=row.whole("rate_bit_per_s"),
            long=Count(row.whole("long_cost"), row.citation("long_source")),
            short=(
                Count(row.whole("short_cost"), row.citation("short_source"))
                if row.optional_text("short_cost") is not None
                else None
            ),
        )
        for row in table("tree_costs.csv")
    }


def tree_cost(rate_bit_per_s: int, scale: TreeCosts) -> int | None:
    """Cost of a link of this rate [bit/s]; None where the scale has no figure for it, which no bridge may guess."""
    row = tree_costs().get(rate_bit_per_s)
    cost = None if row is None else {"long": row.long, "short": row.short}[scale]
    return None if cost is None else cost.count


@cache
def default_priority() -> Count:
    """The priority of a bridge that nobody set; the lowest number becomes the root."""
    return next(Count(row.whole("default_priority"), row.citation()) for row in table("tree_priority.csv"))
