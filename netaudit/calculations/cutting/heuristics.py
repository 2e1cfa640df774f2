"""Ways to cut that are good without any claim to be the best."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Sequence

from netaudit.calculations.cutting.problem import Load, Packing, Pattern, Problem, Size
from netaudit.calculations.cutting.watch import Watch

CANDIDATES = 150
"""Runs that are weighed against one another for one box."""
LEAST_STEPS = 4096
"""Steps in which the room in a box is measured at least."""
MOST_STEPS = 2_000_000_000
"""Steps in which the room in all boxes together is measured at most, if that is more."""
MOST_STEPS_OF_ONE = 2_000_000
"""Steps in which the room in a box is measured at most."""
CARE = 4
"""How many times the room to spare must outdo what may be lost by measuring in steps."""


def best_fit_decreasing(problem: Problem, size: Size) -> tuple[Pattern, ...]:
    """The longest run first, each into the box that it leaves the least room in; runs must not be longer than a box."""
    room: list[tuple[int, int]] = []
    patterns: list[list[int]] = []
    for kind, (length, count) in enumerate(zip(problem.lengths, problem.counts, strict=True)):
        for _ in range(count):
            place = bisect_left(room, (length, -1))
            if place < len(room):
                left_room, box = room.pop(place)
            else:
                left_room, box = size.length, len(patterns)
                patterns.append([])
            patterns[box].append(kind)
            insort(room, (left_room - length, box))
    return tuple(tuple(pattern) for pattern in patterns)


def filled(problem: Problem, boxes: Sequence[Size], watch: Watch) -> Packing | None:
    """Given boxes one by one, each with the longest run left in it and as full as it gets; None if runs are left.

    The method is the minimum bin slack of Gupta and Ho (Production Planning & Control 10, 1999) with the longest run
    fixed, as Fleszar and Hindi improved it (Computers & Operations Research 29, 2002).

    Raises:
        Over: The search has to end.

    """
    left = list(problem.counts)
    kinds = [kind for kind, count in enumerate(left) if count]
    wanted, offered = problem.total, sum(size.length for size in boxes)
    step = measure(problem, boxes)
    loads: list[Load] = []
    for size in boxes:
        watch.check()
        if not kinds:
            break
        if wanted > offered or problem.lengths[kinds[0]] > size.length:
            return None
        load = problem.load(fullest(problem, kinds, left, size, step))
        for kind in load.pattern:
            left[kind] -= 1
            if not left[kind]:
                del kinds[bisect_left(kinds, kind)]
        wanted -= problem.used(load.pattern)
        offered -= size.length
        loads.append(load)
    return None if kinds else tuple(loads)


def measure(problem: Problem, boxes: Sequence[Size]) -> int:
    """The step in which the room in these boxes is measured: rounding every run up to it must not use up what is spare.

    The more the boxes hold beyond the runs, the longer the step, and the quicker the filling.
    """
    offered = sum(size.length for size in boxes)
    longest = max((size.length for size in boxes), default=0)
    affordable = (offered - problem.total) // (CARE * max(1, sum(problem.counts)))
    least = 1 + max(longest // MOST_STEPS_OF_ONE, offered // max(MOST_STEPS, LEAST_STEPS * len(boxes)))
    return max(least, min(affordable, longest // LEAST_STEPS))


def fullest(problem: Problem, kinds: Sequence[int], left: Sequence[int], size: Size, step: int) -> Pattern:
    """The longest run left, with runs that fill the rest of a box as far as the candidates can, long ones first.

    Room is measured in steps, the runs rounded up. In `rooms` bit n tells that a room of n steps can be left.
    """
    lengths = problem.lengths
    room = size.length - lengths[kinds[0]]
    tried = candidates(problem, kinds, left, room)
    room //= step
    rooms = [1 << room]
    for kind in tried:
        rooms.append(rooms[-1] | rooms[-1] >> -(-lengths[kind] // step))
        if rooms[-1] & 1:
            break
    least = (rooms[-1] & -rooms[-1]).bit_length() - 1
    chosen: list[int] = []
    for kind, before in zip(reversed(tried[: len(rooms) - 1]), reversed(rooms[:-1]), strict=True):
        if least == room:
            break
        if not (before >> least) & 1:
            chosen.append(kind)
            least += -(-lengths[kind] // step)
    return (kinds[0], *reversed(chosen))


def candidates(problem: Problem, kinds: Sequence[int], left: Sequence[int], room: int) -> list[int]:
    """Kinds that could go beside the first of them, each as often as it could; a spread of them where they are many."""
    fitting = kinds[bisect_left(kinds, -room, key=lambda kind: -problem.lengths[kind]) :]
    often = [
        kind
        for kind in spread(fitting)
        for _ in range(min(left[kind] - (kind == kinds[0]), room // problem.lengths[kind], CANDIDATES))
    ]
    return list(spread(often))


def spread(kinds: Sequence[int]) -> Sequence[int]:
    """As many as are weighed, from the first to the last of them."""
    if len(kinds) <= CANDIDATES:
        return kinds
    return [kinds[place * (len(kinds) - 1) // (CANDIDATES - 1)] for place in range(CANDIDATES)]
