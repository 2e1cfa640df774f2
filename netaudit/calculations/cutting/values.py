"""What is asked about runs and boxes, and what is answered."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from netaudit.model.bill import Objective


class BoxSize(NamedTuple):
    """A size in which boxes or reels are sold."""

    length_mm: int
    """Cable in a new box [mm]."""
    price: Decimal | None
    """Price of one box; None is unknown."""


class CutBox(NamedTuple):
    """A box and the runs that are cut from it."""

    size: int
    """Index of its size, as the caller listed them."""
    runs: tuple[int, ...]
    """Indexes of its runs, as the caller listed them; the longest first."""


class Cutting(NamedTuple):
    """How all runs are cut, and what is known about every other way."""

    boxes: tuple[CutBox, ...]
    """The box with the most cable in use first."""
    objective: Objective
    lower_bound: int
    """Boxes of the largest size below which nobody can go."""
    price_bound: Decimal | None
    """Price below which nobody can go; None where not every size has a price."""
    proved: bool
    """Whether no other way needs fewer boxes or costs less, whichever is the objective."""
    stopped: bool
    """Whether the caller stopped the search, so that this is the best found until then."""
