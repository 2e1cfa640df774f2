"""Sets of runs, ways to cut them without a claim, and every way there is."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal

from netaudit.calculations.cutting import BoxSize, Cutting, cut
from netaudit.calculations.cutting.problem import Problem, Size

BOX_MM = 304_800
"""1000 ft in whole millimetres, exact by the international foot of 0.3048 m."""


def never() -> bool:
    """Nobody stops it."""
    return False


def silent(_: str) -> None:
    """Nobody is told."""


def cut_all(runs_mm: Sequence[int], sizes: Sequence[BoxSize], limit_s: float = 60.0) -> Cutting:
    """Cut without anybody who watches."""
    return cut(runs_mm, sizes, limit_s=limit_s, tell=silent, stop=never)


def unpriced(*lengths_mm: int) -> list[BoxSize]:
    """Sizes of boxes without prices."""
    return [BoxSize(length_mm, None) for length_mm in lengths_mm]


def problem(box: int, *runs: int) -> Problem:
    """Runs of one size of box."""
    kinds = sorted(set(runs), reverse=True)
    return Problem(tuple(kinds), tuple(runs.count(kind) for kind in kinds), (Size(box, 1),))


def triplets(seed: int, boxes: int) -> list[int]:
    """Three runs for each box of 1000 that fill it, so that the volume bound is the optimum; mixed up."""
    chance = random.Random(seed)  # noqa: S311 - the same runs every time
    runs: list[int] = []
    for _ in range(boxes):
        long = chance.randint(380, 490)
        middle = chance.randint(250, (1000 - long) // 2)
        runs += [long, middle, 1000 - long - middle]
    chance.shuffle(runs)
    return runs


def by_pairs(runs: Sequence[int], box: int) -> int:
    """Boxes of a simple rule: the longest runs that fit, until one or two more can close the box best."""
    left = sorted(runs)
    boxes = 0
    while left:
        room = box - left.pop()
        while left and room >= 3 * left[-1]:
            room -= left.pop()
        for run in closing(left, room):
            left.remove(run)
        boxes += 1
    return boxes


def closing(left: Sequence[int], room: int) -> tuple[int, ...]:
    """The one or two of sorted runs that leave the least room."""
    ways: list[tuple[int, ...]] = [(), *((run,) for run in left if run <= room)]
    low, high = 0, len(left) - 1
    while low < high:
        if left[low] + left[high] > room:
            high -= 1
        else:
            ways.append((left[low], left[high]))
            low += 1
    return max(ways, key=sum)


def paid(cutting: Cutting, sizes: Sequence[BoxSize]) -> Decimal:
    """Price of all boxes."""
    return sum((price for box in cutting.boxes if (price := sizes[box.size].price) is not None), Decimal(0))


def lowest(runs: Sequence[int], cost_of: Callable[[int], Decimal | None]) -> Decimal:
    """The lowest cost over every way to divide the runs, by a table of all sets of them; a box's cost by what is in it."""
    best: list[Decimal | None] = [Decimal(0)]
    box_cost = [
        cost_of(sum(run for place, run in enumerate(runs) if chosen >> place & 1)) for chosen in range(1 << len(runs))
    ]
    for chosen in range(1, 1 << len(runs)):
        ways = [
            before + cost
            for box in parts(chosen)
            if (cost := box_cost[box]) is not None and (before := best[chosen ^ box]) is not None
        ]
        best.append(min(ways, default=None))
    answer = best[-1]
    assert answer is not None
    return answer


def parts(chosen: int) -> Iterator[int]:
    """Every subset of a set that has its first member."""
    part = chosen
    while part:
        if part & chosen & -chosen:
            yield part
        part = (part - 1) & chosen
