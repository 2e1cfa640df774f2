"""Made-up cables: how long direct attach and active optical cables may be."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.reading import table


class TwinaxReach(NamedTuple):
    """How long a made-up cable may be."""

    rate_bit_per_s: int
    """Rate of one lane set, as the port names it [bit/s]."""
    kind: str
    """twinax is passive copper; active-twinax has electronics in its ends; active-optical is fibre between them."""
    phy: str | None
    """Physical layer that defines it."""
    reach_m: float | None
    """Longest [m]; None if only its maker limits it."""
    source: Citation


@cache
def twinax_reach() -> Mapping[tuple[int, str], TwinaxReach]:
    """Length of made-up cables by rate [bit/s] and kind: twinax, active-twinax, active-optical.

    Where several physical layers share a rate, that of the first row, which is the one that ports run unless they say
    otherwise.
    """
    return {(row.rate_bit_per_s, row.kind): row for row in reversed(_rows())}


@cache
def twinax_reach_of() -> Mapping[tuple[str, str], TwinaxReach]:
    """Length of made-up cables by physical layer and kind."""
    return {(row.phy, row.kind): row for row in _rows() if row.phy is not None}


@cache
def _rows() -> tuple[TwinaxReach, ...]:
    return tuple(
        TwinaxReach(
            rate_bit_per_s=row.whole("rate_bit_per_s"),
            kind=row.text("kind"),
            phy=row.optional_text("phy"),
            reach_m=row.optional_number("reach_m"),
            source=row.citation(),
        )
        for row in table("twinax_reach.csv")
    )
