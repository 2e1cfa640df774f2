"""Some of the boxes packed anew, again and again: a large neighbourhood search.

Source: Shaw, Using constraint programming and local search methods to solve vehicle routing problems, Principles and
Practice of Constraint Programming, CP98 (1998).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from random import Random

from netaudit.calculations.cutting.best import Best
from netaudit.calculations.cutting.full_loads import exactly
from netaudit.calculations.cutting.heuristics import filled
from netaudit.calculations.cutting.problem import Load, Packing, Problem, cost_of
from netaudit.calculations.cutting.quick import quick_packing
from netaudit.calculations.cutting.watch import Watch

SEED = 1
"""Where the chance begins, so that the same runs are always cut the same way."""
RUNS_AT_ONCE = 75
"""Runs that are packed anew together."""
PATIENCE = 40
"""Rounds without a cheaper packing after which there is little hope. Where they end well they do so within 30; a round
takes up to a fifth of a second, and one box of hundreds is not worth more than some ten seconds of waiting."""
MOST_LOADS = 600
"""Full loads that the solver is asked to choose from in one round."""
MOST_NODES = 50
"""Branches that the solver may take for one round."""


def repack(problem: Problem, best: Best, beginning: Packing, times: int, watch: Watch) -> None:
    """Begin so many times with a packing, until nothing can be cheaper; chance leads elsewhere each time.

    A beginning that wastes much does better than one from which every easy gain is gone.

    Raises:
        Over: The search has to end.

    """
    chance = Random(SEED)  # noqa: S311 - no secret
    for _ in range(times if sum(problem.counts) > RUNS_AT_ONCE else 1):
        if not best.proved:
            repack_from(problem, best, beginning, chance, watch)


def repack_from(problem: Problem, best: Best, beginning: Packing, chance: Random, watch: Watch) -> None:
    """Pack the emptiest boxes anew with some others, until nothing can be cheaper or nothing has helped for long.

    Raises:
        Over: The search has to end.

    """
    loads = list(beginning)
    idle = 0
    while idle < PATIENCE and not best.proved:
        chosen, others = neighbours(problem, loads, chance)
        part, kinds = only(problem, chosen)
        packed = cheaper(part, cost_of(chosen), watch)
        idle = idle + 1 if packed is None else 0
        packed = packed or fuller(part, chosen, watch)
        if packed is not None:
            chosen = [Load(load.size, tuple(kinds[kind] for kind in load.pattern)) for load in packed]
        loads = [*others, *chosen]
        best.offer(tuple(loads))
        if not others:
            return


def neighbours(problem: Problem, loads: Sequence[Load], chance: Random) -> tuple[list[Load], list[Load]]:
    """The emptiest boxes, enough to save one if all others were full, with others by chance; and those that stay."""
    waste = [load.size.length - problem.used(load.pattern) for load in loads]
    order = sorted(range(len(loads)), key=lambda place: -waste[place])
    needed = problem.largest.length
    emptiest = 0
    while needed > 0 and emptiest < len(order):
        needed -= waste[order[emptiest]]
        emptiest += 1
    rest = order[emptiest:]
    chance.shuffle(rest)
    chosen: list[Load] = []
    runs = 0
    order = order[:emptiest] + rest
    for place in order:
        runs += len(loads[place].pattern)
        if len(chosen) > 1 and runs > RUNS_AT_ONCE:
            break
        chosen.append(loads[place])
    return chosen, [loads[place] for place in order[len(chosen) :]]


def only(problem: Problem, loads: Sequence[Load]) -> tuple[Problem, tuple[int, ...]]:
    """The problem of cutting just these runs; and for each of its kinds which one that is in the whole problem."""
    counted = Counter(kind for load in loads for kind in load.pattern)
    kinds = tuple(sorted(counted))
    lengths, counts = (problem.lengths[kind] for kind in kinds), (counted[kind] for kind in kinds)
    return Problem(tuple(lengths), tuple(counts), problem.sizes), kinds


def cheaper(part: Problem, cost: int, watch: Watch) -> Packing | None:
    """A packing of a part that costs less than now, if one is found.

    Raises:
        Over: The search has to end.

    """
    found = quick_packing(part, cost, watch)
    if found is None and len(part.sizes) == 1:
        found = exactly(part, cost // part.largest.cost - 1, MOST_LOADS, MOST_NODES, watch)[0]
    return found


def fuller(part: Problem, now: Sequence[Load], watch: Watch) -> Packing | None:
    """A packing into the same boxes that leaves what is left in fewer of them, if one is found.

    Raises:
        Over: The search has to end.

    """
    found = filled(part, sorted((load.size for load in now), reverse=True), watch)
    if found is None or cost_of(found) > cost_of(now):
        return None
    return found
