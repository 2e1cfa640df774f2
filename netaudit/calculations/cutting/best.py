"""The best way found so far, and how much better any other could be."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from netaudit.calculations.cutting.problem import Load, Packing, Pattern, Problem, cost_of


class Best:
    """Holds the cheapest packing and the highest bound, and tells of progress."""

    def __init__(self, packing: Packing, bound: int, tell: Callable[[Packing, int], None]) -> None:
        self.packing = packing
        self.cost = cost_of(packing)
        self.bound = bound
        self._tell = tell

    @property
    def proved(self) -> bool:
        """Whether nothing can be cheaper."""
        return self.cost <= self.bound

    def offer(self, packing: Packing) -> None:
        """Keep a packing if it is cheaper, and tell of it unless that settles everything."""
        if cost_of(packing) < self.cost:
            self.packing, self.cost = packing, cost_of(packing)
            if not self.proved:
                self._tell(self.packing, self.bound)

    def raise_bound(self, bound: int) -> None:
        """Nothing is cheaper than this either."""
        self.bound = min(max(self.bound, bound), self.cost)


def without_surplus(problem: Problem, loads: Iterable[Load]) -> Packing:
    """Loads that cut each run at least so often as it is asked for, cut down to exactly so often."""
    left = list(problem.counts)
    packing: list[Load] = []
    for load in loads:
        pattern = taken_from(left, load.pattern)
        if pattern:
            packing.append(problem.load(pattern))
    return tuple(packing)


def taken_from(left: list[int], pattern: Pattern) -> Pattern:
    """The runs of a pattern that are still left; they are left no more."""
    taken: list[int] = []
    for kind in pattern:
        if left[kind]:
            left[kind] -= 1
            taken.append(kind)
    return tuple(taken)
