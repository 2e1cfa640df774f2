"""Whole boxes from parts of boxes, a few at a time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from netaudit.calculations.cutting.best import Best, taken_from
from netaudit.calculations.cutting.problem import Load, Problem, cost_of
from netaudit.calculations.cutting.quick import quick_packing
from netaudit.calculations.cutting.relaxation import generate
from netaudit.calculations.cutting.solver import Master
from netaudit.calculations.cutting.watch import Watch

NEARLY = 1 - 1e-6
"""A part of a box from which on it counts as a whole one."""


def dive(master: Master, best: Best, step: int, watch: Watch) -> None:
    """Fix the boxes that the master problem is surest of, solve it again for what is left, and so on to the end.

    Raises:
        Over: The search has to end.

    """
    problem = master.problem
    chosen: list[Load] = []
    left = list(problem.counts)
    while any(left) and not best.proved:
        master.set_demand(left)
        chosen += surest(problem, generate(master, left, step, watch).taken, left)
        paid = cost_of(chosen)
        rest = quick_packing(replace(problem, counts=tuple(left)), best.cost - paid, watch)
        if rest is not None:
            best.offer((*chosen, *rest))
        if paid >= best.cost:
            return


def surest(problem: Problem, taken: Sequence[tuple[float, Load]], left: list[int]) -> list[Load]:
    """The loads that are taken as a whole, or else the one of which the largest part is.

    Their runs are left no more.
    """
    fixed: list[Load] = []
    for part, load in sorted(taken, key=lambda pair: -pair[0]):
        times = int(part + 1 - NEARLY)
        if not times and fixed:
            break
        patterns = [taken_from(left, load.pattern) for _ in range(max(times, 1))]
        fixed += [problem.load(pattern) for pattern in patterns if pattern]
    return fixed
