"""Equal runs taken together, and boxes with whole-number costs: what every method works on.

Lengths are whole steps: the step is the greatest length of which every run is a whole multiple, often 1 mm. A box
counts the whole steps that it holds, because no run can use the rest.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

Pattern = tuple[int, ...]
"""Kinds of the runs cut from one box, in ascending order, a kind as often as it is cut: the longest run first."""


class Size(NamedTuple):
    """A size of box that is worth a thought."""

    length: int
    """Cable in a new box [steps]."""
    cost: int
    """What one box costs, in the unit of the problem."""


class Load(NamedTuple):
    """A box with its runs."""

    size: Size
    pattern: Pattern


Packing = tuple[Load, ...]
"""Boxes that hold every run once."""


@dataclass(frozen=True)
class Problem:
    """Runs of equal length are one kind."""

    lengths: tuple[int, ...]
    """Length of each kind, the longest first [steps]."""
    counts: tuple[int, ...]
    """Runs of each kind."""
    sizes: tuple[Size, ...]
    """The shortest first; a longer one always costs more."""

    @property
    def largest(self) -> Size:
        """The longest size."""
        return self.sizes[-1]

    @property
    def longest(self) -> int:
        """Length of the longest run that is there [steps]."""
        return next((length for length, count in zip(self.lengths, self.counts, strict=True) if count), 0)

    @cached_property
    def total(self) -> int:
        """All runs end to end [steps]."""
        return sum(length * count for length, count in zip(self.lengths, self.counts, strict=True))

    def used(self, pattern: Pattern) -> int:
        """What a pattern takes from its box [steps]."""
        return sum(self.lengths[kind] for kind in pattern)

    def load(self, pattern: Pattern) -> Load:
        """A pattern in the cheapest box that holds it."""
        used = self.used(pattern)
        return Load(next(size for size in self.sizes if size.length >= used), pattern)


def useful(sizes: Sequence[Size]) -> tuple[Size, ...]:
    """The sizes without those that are no longer than one which costs no more; the shortest first."""
    kept: list[Size] = []
    for size in sorted(sizes, key=lambda size: (-size.length, size.cost)):
        if not kept or size.cost < kept[-1].cost:
            kept.append(size)
    return tuple(reversed(kept))


def cost_of(packing: Sequence[Load]) -> int:
    """What all boxes cost together."""
    return sum(load.size.cost for load in packing)
