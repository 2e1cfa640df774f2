"""The cheapest packing of a few runs, by a table of all sets of them in whole numbers."""

from __future__ import annotations

from netaudit.calculations.cutting.problem import Packing, Problem
from netaudit.calculations.cutting.watch import Watch

MOST_RUNS = 12
"""Runs up to which all sets of them are looked at: half of 3 to this power steps."""


def cheapest_of_all(problem: Problem, watch: Watch) -> Packing:
    """The cheapest packing there is, whatever boxes cost: a set of runs is one box beside a smaller set.

    Raises:
        Over: The search has to end.

    """
    runs = [kind for kind, count in enumerate(problem.counts) for _ in range(count)]
    box_costs = costs_of_sets(problem, runs)
    costs, firsts = [0], [0]
    for members in range(1, 1 << len(runs)):
        watch.check()
        longest = members & -members
        others = part = members ^ longest
        choices: list[tuple[int, int]] = []
        while True:
            box_cost = box_costs[part | longest]
            if box_cost is not None:
                choices.append((box_cost + costs[others ^ part], part | longest))
            if not part:
                break
            part = (part - 1) & others
        cost, first = min(choices)
        costs.append(cost)
        firsts.append(first)
    return boxes_of_sets(problem, runs, firsts)


def costs_of_sets(problem: Problem, runs: list[int]) -> list[int | None]:
    """What a box for each set of runs costs; None where no box holds them. Bit n of a set tells of the nth run."""
    used = [0]
    for kind in runs:
        used += [length + problem.lengths[kind] for length in used]
    return [next((size.cost for size in problem.sizes if size.length >= length), None) for length in used]


def boxes_of_sets(problem: Problem, runs: list[int], firsts: list[int]) -> Packing:
    """The boxes of all runs, from the box that the longest run of each set stands in."""
    packing = []
    members = len(firsts) - 1
    while members:
        first = firsts[members]
        packing.append(problem.load(tuple(kind for place, kind in enumerate(runs) if first >> place & 1)))
        members ^= first
    return tuple(packing)
