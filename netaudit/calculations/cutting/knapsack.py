"""The most valuable runs that fit into a box."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray  # noqa: TC002 - annotations of fields are read at run time

from netaudit.calculations.cutting.problem import Pattern
from netaudit.calculations.cutting.watch import Watch


@dataclass(frozen=True)
class Knapsack:
    """The answer for every room up to a largest one."""

    values: NDArray[np.int64]
    """The most that runs in a room are worth, room by room."""
    pieces: tuple[tuple[int, int, int], ...]
    """What was weighed, in turn: the kind, how many of it at once, and their length."""
    taken: tuple[NDArray[np.uint8], ...]
    """For each piece, a bit for each room: whether it goes in after the pieces before it."""

    def pattern(self, room: int) -> Pattern:
        """The runs that are worth most in a room."""
        chosen: list[int] = []
        for (kind, times, length), taken in zip(reversed(self.pieces), reversed(self.taken), strict=True):
            place = room - length
            if place >= 0 and (taken[place >> 3] >> (7 - (place & 7))) & 1:
                chosen += [kind] * times
                room = place
        return tuple(sorted(chosen))


def knapsack(lengths: Sequence[int], worth: Sequence[int], counts: Sequence[int], room: int, watch: Watch) -> Knapsack:
    """Weigh every kind, each up to its count, for all rooms up to one.

    Raises:
        Over: The search has to end.

    """
    values = np.zeros(room + 1, dtype=np.int64)
    pieces = tuple(cut_into_pieces(lengths, worth, counts, room))
    taken: list[NDArray[np.uint8]] = []
    for kind, times, length in pieces:
        watch.check()
        with_it = values[: room + 1 - length] + worth[kind] * times
        better = with_it > values[length:]
        np.maximum(values[length:], with_it, out=values[length:])
        taken.append(np.packbits(better))
    return Knapsack(values, pieces, tuple(taken))


def cut_into_pieces(
    lengths: Sequence[int], worth: Sequence[int], counts: Sequence[int], room: int
) -> list[tuple[int, int, int]]:
    """Kinds in groups of one, two, four and so on, from which every count up to the whole can be made."""
    pieces: list[tuple[int, int, int]] = []
    for kind, (length, each, count) in enumerate(zip(lengths, worth, counts, strict=True)):
        left, times = min(count, room // length if length else count) if each > 0 else 0, 1
        while left:
            times = min(times, left)
            pieces.append((kind, times, length * times))
            left, times = left - times, times * 2
    return pieces
