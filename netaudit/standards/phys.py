"""Physical layers of Ethernet: their rate, their medium, and where they are defined."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, NamedTuple, cast

from netaudit.citation import Citation
from netaudit.standards.reading import table

Medium = Literal["copper", "multimode", "singlemode", "either", "twinax"]


class Phy(NamedTuple):
    """A physical layer."""

    name: str
    """Designation, such as 10GBASE-SR."""
    rate_bit_per_s: int
    """Rate of data [bit/s]."""
    medium: Medium
    """copper is twisted pair; either is multimode or singlemode fibre."""
    clause: str | None
    """Clause of IEEE 802.3; None where that standard does not define it."""
    source: Citation


@cache
def phys() -> Mapping[str, Phy]:
    """Every physical layer by its designation."""
    return {
        row.text("name"): Phy(
            name=row.text("name"),
            rate_bit_per_s=row.whole("rate_bit_per_s"),
            medium=cast("Medium", row.text("medium")),
            clause=row.optional_text("clause"),
            source=row.citation(),
        )
        for row in table("phys.csv")
    }


@cache
def base_t(rate_bit_per_s: int) -> str | None:
    """The physical layer over twisted pair at a rate [bit/s]; None if there is none."""
    for phy in phys().values():
        if phy.medium == "copper" and phy.rate_bit_per_s == rate_bit_per_s:
            return phy.name
    return None
