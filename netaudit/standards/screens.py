"""Screens: categories of twisted pair that have one by construction, and the connectors that they take."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.reading import table


class ScreenedCategory(NamedTuple):
    """A category of which neither cable nor connector is made without a screen."""

    category: str
    connectors: str
    """Standards of its own connectors."""
    rj45_class: str | None
    """Class of a channel, at most, whose runs end in plain RJ45 instead; None where RJ45 is its own connector."""
    source: Citation


@cache
def screened_categories() -> Mapping[str, ScreenedCategory]:
    """Categories with a screen by construction; all others are sold with and without one."""
    return {
        row.text("category"): ScreenedCategory(
            category=row.text("category"),
            connectors=row.text("connectors"),
            rj45_class=row.optional_text("rj45_class"),
            source=row.citation(),
        )
        for row in table("screened_categories.csv")
    }
