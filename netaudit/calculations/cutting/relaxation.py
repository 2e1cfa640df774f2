"""Column generation: the cheapest choice of parts of boxes, and the bound that follows from it.

Sources: Gilmore and Gomory, A linear programming approach to the cutting-stock problem, Operations Research 9 (1961);
Farley, A note on bounding a class of linear programming problems, Operations Research 38 (1990).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from netaudit.calculations.cutting.knapsack import Knapsack, cut_into_pieces, knapsack
from netaudit.calculations.cutting.problem import Load, Problem
from netaudit.calculations.cutting.solver import Master, Relaxed
from netaudit.calculations.cutting.watch import Watch

WHOLE = 2**36
"""Worth of the largest box in the whole numbers in which runs are valued."""
MARGIN = 1e-7
"""Share of a box that a pattern must be worth more than its box to count as better."""
COARSE_STEPS = 4096
"""Steps in which the largest box is measured while patterns are looked for quickly."""
FINE_CELLS = 60_000_000
"""Pieces times steps up to which patterns are looked for in full detail."""
FINEST_STEPS = 2_000_000
"""Steps in which the largest box is measured at most."""
PEELS = 12
"""Patterns without a common run that are looked for at once."""


@dataclass(frozen=True)
class Duals:
    """A whole-number worth of every kind, such that no load is worth more than `scale` times its cost."""

    worth: tuple[int, ...]
    scale: Fraction

    def cost(self, counts: Sequence[int]) -> Fraction:
        """Cost below which nobody cuts so many runs."""
        return sum(w * n for w, n in zip(self.worth, counts, strict=True)) / self.scale


def whole_worth(relaxed: Relaxed) -> tuple[int, ...]:
    """The worth of every kind as the solver sees it, in whole numbers."""
    return tuple(int(max(worth, 0.0) * WHOLE) for worth in relaxed.worth)


def fine_step(problem: Problem, worth: Sequence[int]) -> int:
    """The shortest step in which a search of patterns is not too large; 1 is full detail."""
    pieces = len(cut_into_pieces(problem.lengths, worth, problem.counts, problem.largest.length))
    return 1 + max(pieces * problem.largest.length // FINE_CELLS, problem.largest.length // FINEST_STEPS)


def steps(problem: Problem) -> tuple[int, ...]:
    """Steps in which lengths are measured one after the other, the coarse one first."""
    coarse = 1 + problem.largest.length // COARSE_STEPS
    fine = fine_step(problem, [1] * len(problem.lengths))
    return (coarse, fine) if fine < coarse else (coarse,)


def price_out(problem: Problem, worth: Sequence[int], counts: Sequence[int], step: int, watch: Watch) -> list[Load]:
    """Pricing: loads that are worth more than they cost, found with lengths rounded up to whole steps.

    Raises:
        Over: The search has to end.

    """
    lengths = [-(-length // step) for length in problem.lengths]
    left = list(counts)
    found: list[Load] = []
    for _ in range(PEELS if step > 1 or problem.largest.length <= COARSE_STEPS else 1):
        table = knapsack(lengths, worth, left, problem.largest.length // step, watch)
        loads = worthwhile(problem, worth, table, step)
        found += loads
        if not loads:
            break
        for kind in loads[0].pattern:
            left[kind] -= 1
    return found


def worthwhile(problem: Problem, worth: Sequence[int], table: Knapsack, step: int) -> list[Load]:
    """For each size the load that is worth most, if it is worth more than it costs; the most profitable first."""
    unit = problem.largest.cost or 1
    found: list[tuple[float, Load]] = []
    for size in problem.sizes:
        pattern = table.pattern(size.length // step)
        load = problem.load(pattern) if pattern else None
        if load is None:
            continue
        profit = sum(worth[kind] for kind in pattern) / WHOLE - load.size.cost / unit
        if profit > MARGIN:
            found.append((profit, load))
    return [load for _, load in sorted(found, key=lambda pair: -pair[0])]


def duals(problem: Problem, worth: tuple[int, ...], watch: Watch) -> Duals:
    """Worths with the least scale that holds for every load; no worth at all if there is none.

    Raises:
        Over: The search has to end.

    """
    step = fine_step(problem, worth)
    lengths = [length // step for length in problem.lengths]
    table = knapsack(lengths, worth, problem.counts, problem.largest.length // step, watch)
    return scaled(problem, worth, table, step)


def nothing_known(problem: Problem) -> Duals:
    """No kind is worth anything, which is always true."""
    return Duals((0,) * len(problem.lengths), Fraction(1))


def scaled(problem: Problem, worth: tuple[int, ...], table: Knapsack, step: int) -> Duals:
    """The worths with the least scale for which no load is worth more than its cost."""
    most = [(int(table.values[size.length // step]), size.cost) for size in problem.sizes]
    if any(value and not cost for value, cost in most):
        return nothing_known(problem)
    return Duals(worth, max(Fraction(value, cost) if cost else Fraction(0) for value, cost in most) or Fraction(1))


def generate(master: Master, counts: Sequence[int], step: int, watch: Watch) -> Relaxed:
    """Add loads until none found in these steps makes the master problem cheaper; its last solution.

    Raises:
        Over: The search has to end.

    """
    while True:
        relaxed = master.relaxed()
        worth = whole_worth(relaxed)
        if not master.add(price_out(master.problem, worth, counts, step, watch)):
            return relaxed
