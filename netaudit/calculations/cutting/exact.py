"""The search that goes on until nothing can be cheaper, or nothing more can be said."""

from __future__ import annotations

import math

from netaudit.calculations.cutting.best import Best, without_surplus
from netaudit.calculations.cutting.dive import dive
from netaudit.calculations.cutting.grouping import groups_of, lengthened, shortened, spelled_out
from netaudit.calculations.cutting.problem import Packing, Problem
from netaudit.calculations.cutting.quick import first_packing
from netaudit.calculations.cutting.relaxation import Duals, duals, generate, nothing_known, steps, whole_worth
from netaudit.calculations.cutting.solver import Choice
from netaudit.calculations.cutting.watch import Watch
from netaudit.calculations.cutting.within_reach import TooMany, loads_within

FEW_KINDS = 250
"""Kinds up to which the solver need not begin with groups of them."""
MOST_KINDS = 600
"""Kinds up to which every one is a row of its own for the solver."""
MOST_COST = 100_000
"""Units that the largest box may cost for the solver's tolerances to tell one unit from none."""
FIRST_NODES = 300
"""Branches that the choice from the loads of the relaxation may take."""
LAST_NODES = 10_000_000
"""Branches that the choice from all loads within reach may take."""


def search(problem: Problem, best: Best, watch: Watch) -> None:
    """Improve the best packing and its bound until they meet or nothing more can be said.

    Raises:
        Over: The search has to end.

    """
    if len(problem.lengths) > FEW_KINDS:
        search_groups(problem, best, watch)
    if len(problem.lengths) <= MOST_KINDS and not best.proved:
        search_kinds(problem, best, watch)


def search_groups(problem: Problem, best: Best, watch: Watch) -> None:
    """The bound of shortened runs, and a packing of lengthened ones.

    Raises:
        Over: The search has to end.

    """
    groups = groups_of(problem)
    shorter, longer = shortened(problem, groups), lengthened(problem, groups)
    step = steps(shorter)[0]
    choice = started(shorter, first_packing(shorter), watch)
    bound(choice, best, step, watch)
    rough = Best(
        first_packing(longer), best.bound, lambda packing, _: best.offer(spelled_out(problem, groups, packing))
    )
    dive(started(longer, rough.packing, watch), rough, step, watch)


def search_kinds(problem: Problem, best: Best, watch: Watch) -> None:
    """The bound of the relaxation and whole boxes from it; then, where they differ, the last word.

    Raises:
        Over: The search has to end.

    """
    choice = started(problem, best.packing, watch)
    found = nothing_known(problem)
    for step in steps(problem):
        found = bound(choice, best, step, watch)
        dive(choice, best, step, watch)
        choice.ask(problem.counts)
        if best.proved:
            return
    choose(choice, best, FIRST_NODES)
    if not best.proved:
        close(problem, found, best, watch)


def started(problem: Problem, packing: Packing, watch: Watch) -> Choice:
    """The loads of a packing and one for every kind alone, to begin with."""
    choice = Choice(problem, watch)
    choice.add(packing)
    choice.add(problem.load((kind,)) for kind in range(len(problem.lengths)))
    return choice


def bound(choice: Choice, best: Best, step: int, watch: Watch) -> Duals:
    """Raise the bound to that of the relaxation; the worths that prove it.

    Raises:
        Over: The search has to end.

    """
    relaxed = generate(choice, choice.problem.counts, step, watch)
    found = duals(choice.problem, whole_worth(relaxed), watch)
    best.raise_bound(math.ceil(found.cost(choice.problem.counts)))
    return found


def choose(choice: Choice, best: Best, most_nodes: int) -> None:
    """Offer the cheapest whole choice of loads.

    Raises:
        Over: The search has to end.

    """
    chosen = choice.whole(most_nodes)
    if chosen is not None:
        best.offer(without_surplus(choice.problem, chosen))
    choice.watch.check()


def close(problem: Problem, found: Duals, best: Best, watch: Watch) -> None:
    """Choose from every load that a cheaper packing could use, so that the answer is the last word.

    Raises:
        Over: The search has to end.

    """
    try:
        loads = loads_within(problem, found, best.cost - 1, watch)
    except TooMany:
        return
    choice = Choice(problem, watch)
    choice.add(loads)
    choose(choice, best, LAST_NODES)
    if choice.exhausted and problem.largest.cost <= MOST_COST:
        best.raise_bound(best.cost)
