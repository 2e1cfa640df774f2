"""Crosstalk and return loss of twisted pair: what cable and connections keep apart, and lines over frequency."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, NamedTuple, cast

from netaudit.citation import Citation
from netaudit.standards.reading import table

Quantity = Literal["NEXT", "PSNEXT", "ACR-F", "PSACR-F", "PSANEXT", "PSAACR-F", "return loss"]
"""NEXT: crosstalk at the near end · ACR-F: at the far end, against the signal · PS: power sum over the other pairs ·
A: alien, from other cables."""
LinePart = Literal["cable", "channel", "link"]


class CrosstalkTerms(NamedTuple):
    """What a cable and one connection keep apart; a channel is their sum as voltages."""

    quantity: Quantity
    category: str
    from_mhz: float
    to_mhz: float
    """Frequencies between which it holds [MHz]."""
    cable_at_100_mhz_db: float
    cable_slope_db_per_decade: float
    """How much the cable keeps apart at 100 MHz [dB], and loses of it with ten times the frequency [dB/decade]."""
    connector_at_100_mhz_db: float
    connector_slope_db_per_decade: float
    """The same of one connection."""
    channel_connections: int
    link_connections: int
    """How many connections count in a channel and in a permanent link."""
    source: Citation


class LimitLine(NamedTuple):
    """One straight piece of a limit over the logarithm of frequency."""

    quantity: Quantity
    part: LinePart
    regime: str
    """iso, tia, or any for both."""
    category: str
    from_mhz: float
    to_mhz: float
    """Frequencies between which it holds [MHz]."""
    level_db: float
    at_mhz: float
    """The line goes through this level [dB] at this frequency [MHz], which may lie outside the piece."""
    slope_db_per_decade: float
    """How far it falls with ten times the frequency [dB/decade]."""
    most_db: float | None
    """The most that is ever asked for [dB]; None without such a cap."""
    source: Citation


@cache
def crosstalk_terms() -> Mapping[tuple[Quantity, str], CrosstalkTerms]:
    """Terms of cable and connection by quantity and category."""
    return {
        (cast("Quantity", row.text("quantity")), row.text("category")): CrosstalkTerms(
            quantity=cast("Quantity", row.text("quantity")),
            category=row.text("category"),
            from_mhz=row.number("from_mhz"),
            to_mhz=row.number("to_mhz"),
            cable_at_100_mhz_db=row.number("cable_at_100_mhz_db"),
            cable_slope_db_per_decade=row.number("cable_slope_db_per_decade"),
            connector_at_100_mhz_db=row.number("connector_at_100_mhz_db"),
            connector_slope_db_per_decade=row.number("connector_slope_db_per_decade"),
            channel_connections=row.whole("channel_connections"),
            link_connections=row.whole("link_connections"),
            source=row.citation(),
        )
        for row in table("crosstalk.csv")
    }


@cache
def limit_lines() -> tuple[LimitLine, ...]:
    """Every piece of a line, each after the one that it continues."""
    return tuple(
        LimitLine(
            quantity=cast("Quantity", row.text("quantity")),
            part=cast("LinePart", row.text("part")),
            regime=row.text("regime"),
            category=row.text("category"),
            from_mhz=row.number("from_mhz"),
            to_mhz=row.number("to_mhz"),
            level_db=row.number("level_db"),
            at_mhz=row.number("at_mhz"),
            slope_db_per_decade=row.number("slope_db_per_decade"),
            most_db=row.optional_number("most_db"),
            source=row.citation(),
        )
        for row in table("limit_lines.csv")
    )
