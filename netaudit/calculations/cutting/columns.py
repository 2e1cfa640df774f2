"""Every load, or column of the master problem, that a cheaper packing could use."""

from __future__ import annotations

from fractions import Fraction

from netaudit.calculations.cutting.problem import Load, Problem, Size
from netaudit.calculations.cutting.relaxation import Duals
from netaudit.calculations.cutting.watch import Watch

MOST_LOADS = 30_000
"""Loads that the solver is asked to choose from."""
MOST_LOOKS = 1_000_000
"""Runs that are tried in a box, all in all."""
MOST_RUNS = 200
"""Runs in one box."""
LOOKS_BETWEEN = 1000
"""Runs that are tried between two looks whether the search has to end."""
FINENESS = 2**20
"""Parts of the worth of one unit of length."""


class TooMany(Exception):  # noqa: N818 - it is no error
    """There are more loads than can be listed."""


def columns_within(problem: Problem, duals: Duals, target: int, watch: Watch) -> list[Load]:
    """All full loads that can stand in a packing of at most the target's cost.

    What a load costs more than its runs are worth comes off what is left between the bound and the target: reduced-cost
    fixing.

    Raises:
        TooMany: There are more than can be listed.
        Over: The search has to end.

    """
    spare = target - duals.cost(problem.counts)
    listing = Listing(problem, duals, watch)
    for size in problem.sizes:
        listing.list_size(size, (size.cost - spare) * duals.scale)
    return listing.found


class Listing:
    """The search for full loads, the longest runs first."""

    def __init__(self, problem: Problem, duals: Duals, watch: Watch) -> None:
        self.found: list[Load] = []
        self._problem = problem
        self._worth = duals.worth
        self._watch = watch
        self._left = list(problem.counts)
        self._chosen: list[int] = []
        self._looks = 0
        self._best_rate = [0] * (len(problem.lengths) + 1)
        for kind in reversed(range(len(problem.lengths))):
            rate = -(-duals.worth[kind] * FINENESS // problem.lengths[kind])
            self._best_rate[kind] = max(rate, self._best_rate[kind + 1])
        if problem.largest.length // problem.lengths[-1] > MOST_RUNS:
            raise TooMany

    def list_size(self, size: Size, least: Fraction) -> None:
        """List the loads of a size that are worth at least so much."""
        self._size = size
        self._least = -(-least.numerator // least.denominator)
        self._extend(0, size.length, 0)

    def _extend(self, first: int, room: int, worth: int) -> None:
        self._count()
        lengths, left = self._problem.lengths, self._left
        for kind in range(first, len(lengths)):
            if worth * FINENESS + room * self._best_rate[kind] < self._least * FINENESS:
                break
            if left[kind] and lengths[kind] <= room:
                left[kind] -= 1
                self._chosen.append(kind)
                self._extend(kind, room - lengths[kind], worth + self._worth[kind])
                self._chosen.pop()
                left[kind] += 1
        if worth >= self._least and self._chosen and not self._fits_more(room):
            self.found.append(Load(self._size, tuple(self._chosen)))

    def _fits_more(self, room: int) -> bool:
        shortest = next((kind for kind in reversed(range(len(self._left))) if self._left[kind]), None)
        return shortest is not None and self._problem.lengths[shortest] <= room

    def _count(self) -> None:
        self._looks += 1
        if self._looks > MOST_LOOKS or len(self.found) > MOST_LOADS:
            raise TooMany
        if self._looks % LOOKS_BETWEEN == 0:
            self._watch.check()
