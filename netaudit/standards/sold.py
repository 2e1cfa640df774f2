"""What is sold: the lengths of cords and other made-up cables, and the sizes of boxes and reels."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.reading import table
from netaudit.units import METRES_PER_FOOT

PRINTED_WITHIN_M = 1e-3
"""Difference up to which a length is the one that is printed on a box [m]."""


class SoldLengths(NamedTuple):
    """The lengths in which one kind of cable is sold."""

    lengths_m: tuple[float, ...]
    """Each length, the shortest first [m]."""
    step_m: float
    """What longer ones, made to order, are counted in [m]."""


class SoldBox(NamedTuple):
    """A box or reel of cable that is cut to length."""

    kind: str
    """box or reel."""
    printed_m: float
    """Length that is printed on it [m]."""
    length_m: float
    """Length that is in it [m]."""
    source: Citation


@cache
def sold_lengths() -> Mapping[tuple[str, str], SoldLengths]:
    """Lengths by kind of cable and series, metric or imperial.

    Kinds that are sold in metres everywhere have the same lengths in both.
    """
    found: dict[tuple[str, str], list[float]] = defaultdict(list)
    steps_m: dict[tuple[str, str], float] = {}
    for row in table("sold_lengths.csv"):
        series = row.text("series")
        for one in ("metric", "imperial") if series == "any" else (series,):
            found[row.text("kind"), one].append(row.number("length_m"))
            steps_m[row.text("kind"), one] = METRES_PER_FOOT if row.optional_text("length_ft") else 1.0
    return {key: SoldLengths(tuple(sorted(lengths_m)), steps_m[key]) for key, lengths_m in found.items()}


@cache
def sold_boxes() -> tuple[SoldBox, ...]:
    """Boxes and reels that are sold, the most usual first."""
    return tuple(
        SoldBox(
            kind=row.text("kind"),
            printed_m=row.number("printed_m"),
            length_m=row.number("length_m"),
            source=row.citation(),
        )
        for row in table("box_sizes.csv")
    )


def held_m(printed_m: float) -> float:
    """Length that is in a box [m], by the length that is printed on it [m]: boxes of 305 m hold 1000 ft."""
    known = (box.length_m for box in sold_boxes() if abs(box.printed_m - printed_m) <= PRINTED_WITHIN_M)
    return next(known, printed_m)
