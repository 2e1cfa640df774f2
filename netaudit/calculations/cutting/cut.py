"""Cut runs from boxes: as few boxes as can be, or at the lowest price."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress

from netaudit.calculations.cutting.best import Best
from netaudit.calculations.cutting.bounds import fewest_boxes
from netaudit.calculations.cutting.few import MOST_RUNS, cheapest_of_all
from netaudit.calculations.cutting.money import Money
from netaudit.calculations.cutting.problem import Packing, Pattern, Problem, Size, cost_of, useful
from netaudit.calculations.cutting.quick import first_packing, quick_bound, quick_packing
from netaudit.calculations.cutting.values import BoxSize, CutBox, Cutting
from netaudit.calculations.cutting.watch import Over, Watch


def cut(
    runs_mm: Sequence[int],
    sizes: Sequence[BoxSize],
    *,
    limit_s: float = 60.0,
    tell: Callable[[str], None],
    stop: Callable[[], bool],
) -> Cutting:
    """Cut runs [mm] that are never joined from boxes of which any number can be bought.

    Where every size has a price, the price of all boxes is the lowest; otherwise the boxes are the fewest of the
    largest size, each then replaced by the smallest size that holds its runs. The search ends after a time [s], or when
    `stop`, asked every now and then in the thread of the caller, says so; what was found until then is the answer.

    Raises:
        ValueError: A run or a size is not longer than nothing, a price is negative or no number, there is no size, or a
            run is longer than the largest.

    """
    check_input(runs_mm, sizes)
    prices = [size.price for size in sizes if size.price is not None]
    money = Money(prices) if len(prices) == len(sizes) else None
    problem, runs = grouped(runs_mm, sizes, money)
    with Watch(limit_s, stop) as watch:
        best = solve(problem, watch, telling(money, tell))
    return Cutting(
        boxes=boxes_of([load.pattern for load in best.packing], runs, runs_mm, sizes),
        objective="fewest boxes" if money is None else "lowest price",
        lower_bound=best.bound if money is None else fewest_boxes(problem),
        price_bound=None if money is None else money.price(best.bound),
        proved=best.proved,
        stopped=watch.stopped and not best.proved,
    )


def check_input(runs_mm: Sequence[int], sizes: Sequence[BoxSize]) -> None:
    """Refuse what cannot be cut.

    Raises:
        ValueError: As `cut`.

    """
    if not sizes:
        raise ValueError("no size of box is given")
    if min(size.length_mm for size in sizes) <= 0:
        raise ValueError("a size of box must be longer than 0 mm")
    if any(size.price is not None and not (size.price.is_finite() and size.price >= 0) for size in sizes):
        raise ValueError("the price of a box must be 0 or more")
    if min(runs_mm, default=1) <= 0:
        raise ValueError("a run must be longer than 0 mm")
    longest_mm, largest_mm = max(runs_mm, default=0), max(size.length_mm for size in sizes)
    if longest_mm > largest_mm:
        raise ValueError(f"a run of {longest_mm} mm is longer than the largest box, {largest_mm} mm")


def grouped(
    runs_mm: Sequence[int], sizes: Sequence[BoxSize], money: Money | None
) -> tuple[Problem, tuple[tuple[int, ...], ...]]:
    """The problem in steps of the greatest length of which all runs are multiples, and the runs of each kind."""
    places: defaultdict[int, list[int]] = defaultdict(list)
    for place, run_mm in enumerate(runs_mm):
        places[run_mm].append(place)
    step_mm = math.gcd(*places) or 1
    kinds = sorted(places, reverse=True)
    problem = Problem(
        lengths=tuple(length_mm // step_mm for length_mm in kinds),
        counts=tuple(len(places[length_mm]) for length_mm in kinds),
        sizes=thinkable(sizes, step_mm, money),
    )
    return problem, tuple(tuple(places[length_mm]) for length_mm in kinds)


def thinkable(sizes: Sequence[BoxSize], step_mm: int, money: Money | None) -> tuple[Size, ...]:
    """The sizes from which the best are chosen: all that are useful at their prices, or the largest alone."""
    if money is None:
        return (Size(max(size.length_mm for size in sizes) // step_mm, 1),)
    return useful(
        [
            Size(size.length_mm // step_mm, money.cost(size.price))
            for size in sizes
            if size.price is not None and size.length_mm >= step_mm
        ]
    )


def solve(problem: Problem, watch: Watch, tell: Callable[[Packing, int], None]) -> Best:
    """The quick ways first; where they leave a doubt, the exact search."""
    best = Best(first_packing(problem), quick_bound(problem), tell)
    with suppress(Over):
        if not best.proved:
            best.offer(quick_packing(problem, best.cost, watch) or best.packing)
        if not best.proved and sum(problem.counts) <= MOST_RUNS:
            best.offer(cheapest_of_all(problem, watch))
            best.raise_bound(best.cost)
        if not best.proved:
            tell(best.packing, best.bound)
            from netaudit.calculations.cutting.exact import search  # noqa: PLC0415 - most cuts need no solver

            search(problem, best, watch)
    return best


def telling(money: Money | None, tell: Callable[[str], None]) -> Callable[[Packing, int], None]:
    """How far the search is, in a sentence."""
    if money is None:
        return lambda packing, bound: tell(f"{len(packing)} boxes so far, at least {bound} are needed")
    return lambda packing, bound: tell(
        f"{money.price(cost_of(packing))} for {len(packing)} boxes so far, at least {money.price(bound)} must be paid"
    )


def boxes_of(
    patterns: Iterable[Pattern], runs: Sequence[Sequence[int]], runs_mm: Sequence[int], sizes: Sequence[BoxSize]
) -> tuple[CutBox, ...]:
    """The box with the most cable in use first, with the runs themselves; equal runs in the order they were listed."""
    lengths_mm = [runs_mm[places[0]] for places in runs]
    waiting = [iter(places) for places in runs]
    used = [(sum(lengths_mm[kind] for kind in pattern), pattern) for pattern in patterns]
    return tuple(
        CutBox(size_for(used_mm, sizes), tuple(next(waiting[kind]) for kind in pattern))
        for used_mm, pattern in sorted(used, key=lambda box: (-box[0], box[1]))
    )


def size_for(used_mm: int, sizes: Sequence[BoxSize]) -> int:
    """The smallest size that holds so much; where all have prices the cheapest, and of those the longest."""
    holding = [place for place, size in enumerate(sizes) if size.length_mm >= used_mm]
    prices = [size.price for size in sizes if size.price is not None]
    if len(prices) < len(sizes):
        return min(holding, key=lambda place: sizes[place].length_mm)
    return min(holding, key=lambda place: (prices[place], -sizes[place].length_mm))
