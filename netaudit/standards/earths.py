"""Earths: which kinds of cable join the earths of the two places that they run between."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.reading import table


class EarthPath(NamedTuple):
    """Whether one kind of cable is a way for currents between two earths."""

    kind: str
    joins_earths: bool
    source: Citation


@cache
def earth_paths() -> Mapping[str, EarthPath]:
    """Kinds of cable: a kind of made-up or host cable by its own name, else `twisted pair` or `fibre`."""
    return {
        row.text("kind"): EarthPath(
            kind=row.text("kind"),
            joins_earths={"yes": True, "no": False}[row.text("joins_earths")],
            source=row.citation(),
        )
        for row in table("earths.csv")
    }
