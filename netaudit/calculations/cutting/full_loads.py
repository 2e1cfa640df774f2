"""Every load that leaves next to nothing in its box."""

from __future__ import annotations

from netaudit.calculations.cutting.best import without_surplus
from netaudit.calculations.cutting.columns import MOST_RUNS, TooMany
from netaudit.calculations.cutting.problem import Load, Packing, Pattern, Problem
from netaudit.calculations.cutting.solver import Master
from netaudit.calculations.cutting.watch import Watch

MOST_LOOKS = 3_000_000
"""Runs that are tried in a box, all in all."""
MOST_CELLS = 400_000_000
"""Kinds times steps in a box up to which it is noted which lengths can be made [bit]."""
LOOKS_BETWEEN = 1000
"""Runs that are tried between two looks whether the search has to end."""


def full_loads(problem: Problem, spare: int, most: int, watch: Watch) -> list[Load]:
    """The loads of the largest box that leave at most what is spare and no room for another run.

    Raises:
        TooMany: There are more than so many, or more than can be looked for.
        Over: The search has to end.

    """
    box = problem.largest.length
    if len(problem.lengths) * box > MOST_CELLS or box // problem.lengths[-1] > MOST_RUNS:
        raise TooMany
    listing = Listing(problem, spare, most, watch)
    listing.extend(0, box)
    return [Load(problem.largest, pattern) for pattern in listing.found]


def reachable(problem: Problem) -> tuple[int, ...]:
    """For each kind the lengths that it and shorter kinds can make in a box, a bit for each length."""
    every = (1 << (problem.largest.length + 1)) - 1
    sums = [1]
    for length, count in zip(reversed(problem.lengths), reversed(problem.counts), strict=True):
        made = sums[-1]
        left, times = min(count, problem.largest.length // length), 1
        while left:
            times = min(times, left)
            made |= (made << length * times) & every
            left, times = left - times, times * 2
        sums.append(made)
    return tuple(reversed(sums))


class Listing:
    """The search for full loads, the longest runs first; a run is tried only where shorter ones can fill the rest."""

    def __init__(self, problem: Problem, spare: int, most: int, watch: Watch) -> None:
        self.found: list[Pattern] = []
        self._problem = problem
        self._spare = spare
        self._most = most
        self._watch = watch
        self._sums = reachable(problem)
        self._left = list(problem.counts)
        self._chosen: list[int] = []
        self._looks = 0

    def extend(self, first: int, room: int) -> None:
        """List all ways to go on with the kinds from the first in what is left of a box.

        Raises:
            TooMany: There are more than can be listed.
            Over: The search has to end.

        """
        lengths, left = self._problem.lengths, self._left
        if room <= self._spare and not self._fits_more(room):
            self.found.append(tuple(self._chosen))
        for kind in range(first, len(lengths)):
            self._count()
            if not self._fillable(kind, room):
                break
            if left[kind] and lengths[kind] <= room and self._fillable(kind, room - lengths[kind]):
                left[kind] -= 1
                self._chosen.append(kind)
                self.extend(kind, room - lengths[kind])
                self._chosen.pop()
                left[kind] += 1

    def _fillable(self, kind: int, room: int) -> bool:
        """Whether the kind and shorter ones can fill a room but for what is spare."""
        least = max(0, room - self._spare)
        return bool((self._sums[kind] >> least) & ((2 << (room - least)) - 1))

    def _fits_more(self, room: int) -> bool:
        shortest = next((kind for kind in reversed(range(len(self._left))) if self._left[kind]), None)
        return shortest is not None and self._problem.lengths[shortest] <= room

    def _count(self) -> None:
        self._looks += 1
        if self._looks > MOST_LOOKS or len(self.found) > self._most:
            raise TooMany
        if self._looks % LOOKS_BETWEEN == 0:
            self._watch.check()


def exactly(
    problem: Problem, boxes: int, most_loads: int, most_nodes: int, watch: Watch
) -> tuple[Packing | None, bool]:
    """A packing into so many of the largest box, if one is found; and whether it is certain that there is none.

    All boxes of such a packing together leave what is spare, so that none of them leaves more.

    Raises:
        Over: The search has to end.

    """
    spare = boxes * problem.largest.length - problem.total
    if spare < 0:
        return None, True
    try:
        loads = full_loads(problem, spare, most_loads, watch)
    except TooMany:
        return None, False
    if not loads:
        return None, True
    master = Master(problem, watch)
    master.add(loads)
    chosen = master.whole(most_nodes)
    if chosen is not None and len(chosen) <= boxes:
        return without_surplus(problem, chosen), False
    return None, master.exhausted
