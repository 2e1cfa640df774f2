"""Numbers of boxes and prices below which nobody can go, without trying to cut anything.

Sources: Martello and Toth, Lower bounds and reduction procedures for the bin packing problem, Discrete Applied
Mathematics 28 (1990), bound L2; Fekete and Schepers, New classes of fast lower bounds for bin packing problems,
Mathematical Programming 91 (2001), functions u(k).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import accumulate

from netaudit.calculations.cutting.problem import Problem, Size

ROUNDINGS = 30
"""Functions of Fekete and Schepers that are tried."""
LOOKS = 10_000
"""Choices of boxes that are looked at in search of cheap ones."""


def fewest_boxes(problem: Problem) -> int:
    """Boxes of the largest size below which nobody can go."""
    return max(volume_bound(problem), halves_bound(problem), rounding_bound(problem))


def volume_bound(problem: Problem) -> int:
    """Boxes that all runs would fill if they could be joined."""
    return -(-problem.total // problem.largest.length)


def halves_bound(problem: Problem) -> int:
    """Bound L2 of Martello and Toth: no two runs of more than half a box share one."""
    box = problem.largest.length
    lengths = problem.lengths[::-1]
    counts = problem.counts[::-1]
    runs = (0, *accumulate(counts))
    volumes = (0, *accumulate(length * count for length, count in zip(lengths, counts, strict=True)))
    half = bisect_right(lengths, box // 2)
    best = runs[-1] - runs[half]
    for small in range(half):
        alone = max(half, bisect_right(lengths, box - lengths[small]))
        room = (runs[alone] - runs[half]) * box - (volumes[alone] - volumes[half])
        beside = volumes[half] - volumes[small] - room
        best = max(best, runs[-1] - runs[half] + max(0, -(-beside // box)))
    return best


def rounding_bound(problem: Problem) -> int:
    """Bound of Fekete and Schepers: lengths rounded to parts of a box so that what fits still fits."""
    box = problem.largest.length
    best = 0
    for parts in range(1, ROUNDINGS + 1):
        rounded = 0
        for length, count in zip(problem.lengths, problem.counts, strict=True):
            whole, rest = divmod((parts + 1) * length, box)
            rounded += count * (whole * box if rest else parts * length)
        best = max(best, -(-rounded // (parts * box)))
    return best


def covers(problem: Problem) -> Iterator[tuple[int, tuple[int, ...] | None]]:
    """Boxes that are long enough together, the cheapest first: their cost, and how many of each size.

    None instead of the boxes: the search grew too long; nothing cheaper than the cost is left, and this was the last.
    """
    sizes = problem.sizes
    queue: list[tuple[int, int, int, tuple[int, ...]]] = []

    def put(taken: tuple[int, ...], first: int) -> None:
        left_room = problem.total - sum(size.length * n for size, n in zip(sizes, taken, strict=True))
        paid = sum(size.cost * n for size, n in zip(sizes, taken, strict=True))
        heappush(queue, (paid + least_cost(sizes[: first + 1], left_room), max(left_room, 0), first, taken))

    put((0,) * len(sizes), len(sizes) - 1)
    for _ in range(LOOKS):
        cost, left_room, first, taken = heappop(queue)
        if left_room == 0:
            yield cost, taken
            if not queue:
                return
            continue
        for index in range(first + 1):
            put((*taken[:index], taken[index] + 1, *taken[index + 1 :]), index)
    yield queue[0][0], None


def least_cost(sizes: tuple[Size, ...], length: int) -> int:
    """Cost below which no boxes of these sizes make up a length."""
    if length <= 0:
        return 0
    return min(-(-length * size.cost // size.length) for size in sizes)
