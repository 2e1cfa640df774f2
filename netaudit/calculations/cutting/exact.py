"""The search that goes on until nothing can be cheaper, or nothing more can be said."""

from __future__ import annotations

import math

from netaudit.calculations.cutting.best import Best, without_surplus
from netaudit.calculations.cutting.columns import TooMany, columns_within
from netaudit.calculations.cutting.dive import dive
from netaudit.calculations.cutting.full_loads import exactly
from netaudit.calculations.cutting.grouping import groups_of, lengthened, shortened, spelled_out
from netaudit.calculations.cutting.problem import Packing, Problem
from netaudit.calculations.cutting.quick import first_packing
from netaudit.calculations.cutting.relaxation import Duals, duals, generate, steps, whole_worth
from netaudit.calculations.cutting.repack import repack
from netaudit.calculations.cutting.solver import Master
from netaudit.calculations.cutting.watch import Watch

FEW_KINDS = 250
"""Kinds up to which the solver need not begin with groups of them."""
MOST_KINDS = 600
"""Kinds up to which every one is a row of its own for the solver."""
MOST_COST = 100_000
"""Units that the largest box may cost for the solver's tolerances to tell one unit from none."""
BEGINNINGS = 3
"""Times that packing boxes anew begins afresh."""
LOADS_PER_KIND = 2
"""Full loads for each kind up to which nothing else is tried first."""
FIRST_NODES = 300
"""Branches that the choice from the loads of the relaxation may take."""
LAST_NODES = 10_000_000
"""Branches that the choice from all loads within reach may take."""


def search(problem: Problem, best: Best, watch: Watch) -> None:
    """Improve the best packing and its bound until they meet or nothing more can be said.

    Raises:
        Over: The search has to end.

    """
    if len(problem.sizes) == 1:
        search_full(problem, best, watch)
    if len(problem.lengths) > FEW_KINDS and not best.proved:
        search_groups(problem, best, watch)
    if best.proved:
        return
    if len(problem.lengths) <= MOST_KINDS:
        search_kinds(problem, best, watch)
    else:
        repack(problem, best, best.packing, 1, watch)


def search_full(problem: Problem, best: Best, watch: Watch) -> None:
    """Boxes without waste, as long as so few loads are full enough that the solver chooses from them at once.

    Raises:
        Over: The search has to end.

    """
    while not best.proved:
        boxes = best.bound // problem.largest.cost
        found, impossible = exactly(problem, boxes, LOADS_PER_KIND * len(problem.lengths), FIRST_NODES, watch)
        if found is not None:
            best.offer(found)
        elif impossible:
            best.raise_bound(best.bound + problem.largest.cost)
        else:
            return


def search_groups(problem: Problem, best: Best, watch: Watch) -> None:
    """The bound of shortened runs, and a packing of lengthened ones.

    Raises:
        Over: The search has to end.

    """
    groups = groups_of(problem)
    shorter, longer = shortened(problem, groups), lengthened(problem, groups)
    step = steps(shorter)[0]
    master = started(shorter, first_packing(shorter), watch)
    bound(master, best, step, watch)
    rough = Best(
        first_packing(longer), best.bound, lambda packing, _: best.offer(spelled_out(problem, groups, packing))
    )
    dive(started(longer, rough.packing, watch), rough, step, watch)


def search_kinds(problem: Problem, best: Best, watch: Watch) -> None:
    """The bound of the relaxation and whole boxes from it; then, where they differ, the last word.

    Where parts of boxes need no more than the quick bound, boxes can be filled without waste, and packing some of them
    anew is the quickest way; elsewhere the relaxation knows best.

    Raises:
        Over: The search has to end.

    """
    known = best.bound
    master = started(problem, best.packing, watch)
    found = bound(master, best, steps(problem)[0], watch)
    if best.bound == known:
        repack(problem, best, first_packing(problem), BEGINNINGS, watch)
    if best.proved:
        return
    for step in steps(problem):
        found = bound(master, best, step, watch)
        dive(master, best, step, watch)
        master.set_demand(problem.counts)
        if best.proved:
            return
    choose(master, best, FIRST_NODES)
    if not best.proved:
        close(problem, found, best, watch)


def started(problem: Problem, packing: Packing, watch: Watch) -> Master:
    """The loads of a packing and one for every kind alone, to begin with."""
    master = Master(problem, watch)
    master.add(packing)
    master.add(problem.load((kind,)) for kind in range(len(problem.lengths)))
    return master


def bound(master: Master, best: Best, step: int, watch: Watch) -> Duals:
    """Raise the bound to that of the relaxation; the worths that prove it.

    Raises:
        Over: The search has to end.

    """
    relaxed = generate(master, master.problem.counts, step, watch)
    found = duals(master.problem, whole_worth(relaxed), watch)
    best.raise_bound(math.ceil(found.cost(master.problem.counts)))
    return found


def choose(master: Master, best: Best, most_nodes: int) -> None:
    """Offer the cheapest whole choice of loads.

    Raises:
        Over: The search has to end.

    """
    chosen = master.whole(most_nodes)
    if chosen is not None:
        best.offer(without_surplus(master.problem, chosen))
    master.watch.check()


def close(problem: Problem, found: Duals, best: Best, watch: Watch) -> None:
    """Choose from every load that a cheaper packing could use, so that the answer is the last word.

    Raises:
        Over: The search has to end.

    """
    try:
        loads = columns_within(problem, found, best.cost - 1, watch)
    except TooMany:
        return
    master = Master(problem, watch)
    master.add(loads)
    choose(master, best, LAST_NODES)
    if master.exhausted and problem.largest.cost <= MOST_COST:
        best.raise_bound(best.cost)
