"""Crosstalk and return loss that a channel of twisted pair must keep, over frequency."""

from __future__ import annotations

from math import log10
from typing import NamedTuple

from netaudit.standards.crosstalk import CrosstalkTerms, LimitLine, LinePart, Quantity, crosstalk_terms, limit_lines
from netaudit.standards.reading import Citation


class Kept(NamedTuple):
    """What a part must keep at one frequency."""

    level_db: float
    source: Citation


def line_db(line: LimitLine, frequency_mhz: float) -> float:
    """Height of a line [dB] at a frequency [MHz], its cap included; outside its own range an extrapolation."""
    level_db = line.level_db - line.slope_db_per_decade * log10(frequency_mhz / line.at_mhz)
    return level_db if line.most_db is None else min(level_db, line.most_db)


def terms_db(terms: CrosstalkTerms, connections: int, frequency_mhz: float) -> float:
    """What cable and connections together keep apart [dB] at a frequency [MHz]: they add up as voltages."""
    decades = log10(frequency_mhz / 100)
    cable_db = terms.cable_at_100_mhz_db - terms.cable_slope_db_per_decade * decades
    connector_db = terms.connector_at_100_mhz_db - terms.connector_slope_db_per_decade * decades
    return -20 * log10(10 ** (-cable_db / 20) + connections * 10 ** (-connector_db / 20))


def crosstalk_limit(
    quantity: Quantity, part: LinePart, regime: str, category: str, frequency_mhz: float
) -> Kept | None:
    """What a part of a category must keep at a frequency [MHz]; None where no figure is published.

    A line goes before the sum of cable and connections where both are published.
    """
    line = next(
        (
            line
            for line in limit_lines()
            if (line.quantity, line.part, line.category) == (quantity, part, category)
            and line.regime in (regime, "any")
            and line.from_mhz <= frequency_mhz <= line.to_mhz
        ),
        None,
    )
    if line is not None:
        return Kept(line_db(line, frequency_mhz), line.source)
    terms = crosstalk_terms().get((quantity, category))
    if terms is None or not terms.from_mhz <= frequency_mhz <= terms.to_mhz:
        return None
    connections = {"cable": 0, "channel": terms.channel_connections, "link": terms.link_connections}[part]
    return Kept(terms_db(terms, connections, frequency_mhz), terms.source)
