"""Delay of twisted pair, and how far its pairs may differ in it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, NamedTuple, cast

from netaudit.citation import Citation
from netaudit.standards.reading import table

Quantity = Literal["delay", "skew"]
"""delay: how long a signal travels · skew: how far the pairs of one cable differ in it."""


class DelayLimit(NamedTuple):
    """The most delay or skew of a cable, a channel or a permanent link, added up of cable and connections."""

    quantity: Quantity
    categories: str
    """The categories it is for, in words; any for all."""
    part: str
    """cable: 100 m of it · channel · link."""
    cable_m: float
    """Cable in it [m]."""
    cable_ns_per_100_m: float
    cable_root_ns_per_100_m: float
    """Delay of the cable [ns/100 m]: the first, and the second divided by the root of the frequency in MHz."""
    connections: int
    connector_ns: float
    """Delay of one connection [ns]."""
    source: Citation


@cache
def delays() -> Mapping[tuple[Quantity, str, str], DelayLimit]:
    """Limits of delay and skew by quantity, categories and part."""
    return {
        (cast("Quantity", row.text("quantity")), row.text("categories"), row.text("part")): DelayLimit(
            quantity=cast("Quantity", row.text("quantity")),
            categories=row.text("categories"),
            part=row.text("part"),
            cable_m=row.number("cable_m"),
            cable_ns_per_100_m=row.number("cable_ns_per_100_m"),
            cable_root_ns_per_100_m=row.number("cable_root_ns_per_100_m"),
            connections=row.whole("connections"),
            connector_ns=row.number("connector_ns"),
            source=row.citation(),
        )
        for row in table("delays.csv")
    }
