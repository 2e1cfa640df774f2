"""The cheapest packing of the quick methods."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

from netaudit.calculations.cutting.bounds import covers, fewest_boxes
from netaudit.calculations.cutting.heuristics import best_fit_decreasing, filled
from netaudit.calculations.cutting.problem import Packing, Problem, Size, cost_of
from netaudit.calculations.cutting.watch import Watch

MOST_BOXES = 600
"""Boxes that are filled in all choices together, if one choice is not more."""


def first_packing(problem: Problem) -> Packing:
    """The cheapest of best-fit packings, one for each size that holds the longest run."""
    holding = [size for size in problem.sizes if size.length >= problem.longest]
    packings = [tuple(map(problem.load, best_fit_decreasing(problem, size))) for size in holding]
    return min(packings, key=cost_of)


def quick_bound(problem: Problem) -> int:
    """Cost below which nobody can go, without a search."""
    cost, _ = next(choices(problem))
    return cost


def choices(problem: Problem) -> Iterator[tuple[int, tuple[Size, ...] | None]]:
    """Boxes that might do, the cheapest first, with their cost.

    None for the boxes: nothing cheaper is left, and no more is known.
    """
    if len(problem.sizes) == 1:
        for boxes in count(fewest_boxes(problem)):
            yield boxes * problem.largest.cost, (problem.largest,) * boxes
    for cost, counts in covers(problem):
        if counts is None:
            yield cost, None
            return
        yield cost, tuple(size for size, n in zip(problem.sizes, counts, strict=True) for _ in range(n))


def quick_packing(problem: Problem, below: int, watch: Watch) -> Packing | None:
    """A packing that costs less than a figure, if filling the cheapest choices of boxes finds one.

    Raises:
        Over: The search has to end.

    """
    filled_boxes = 0
    for cost, boxes in choices(problem):
        if cost >= below or boxes is None or filled_boxes > MOST_BOXES:
            return None
        filled_boxes += len(boxes)
        for order in dict.fromkeys((boxes, boxes[::-1])):
            packing = filled(problem, order, watch)
            if packing is not None:
                return packing
    return None
