"""Kinds of nearly equal length taken together, so that a problem with very many kinds becomes a small one.

Source: Fernandez de la Vega and Lueker, Bin packing can be solved within 1 + epsilon in linear time, Combinatorica 1
(1981), linear grouping.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from netaudit.calculations.cutting.problem import Packing, Problem

MOST_GROUPS = 100
"""Groups that kinds are taken together in."""

Groups = tuple[range, ...]
"""Kinds of each group, the longest first."""


def groups_of(problem: Problem) -> Groups:
    """Neighbouring kinds in groups of about equal numbers of runs."""
    most = max(1, -(-sum(problem.counts) // MOST_GROUPS))
    ends = [0]
    seen = 0
    for kind, reached in enumerate(accumulate(problem.counts)):
        if reached - seen >= most or kind == len(problem.counts) - 1:
            ends.append(kind + 1)
            seen = reached
    return tuple(range(first, end) for first, end in pairwise(ends))


def shortened(problem: Problem, groups: Groups) -> Problem:
    """Every run as short as the shortest of its group: it can only get cheaper."""
    return merged(problem, groups, [problem.lengths[group[-1]] for group in groups])


def lengthened(problem: Problem, groups: Groups) -> Problem:
    """Every run as long as the longest of its group: what fits there fits in truth."""
    return merged(problem, groups, [problem.lengths[group[0]] for group in groups])


def merged(problem: Problem, groups: Groups, lengths: Sequence[int]) -> Problem:
    """A kind for each group, of a given length."""
    counts = tuple(sum(problem.counts[kind] for kind in group) for group in groups)
    return replace(problem, lengths=tuple(lengths), counts=counts)


def spelled_out(problem: Problem, groups: Groups, packing: Packing) -> Packing:
    """A packing of groups as one of the kinds in them."""
    waiting = [[kind for kind in reversed(group) for _ in range(problem.counts[kind])] for group in groups]
    return tuple(problem.load(tuple(waiting[group].pop() for group in load.pattern)) for load in packing)
