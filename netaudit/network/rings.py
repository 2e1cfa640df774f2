"""Rings: for each edge of a graph that closes one, a short ring through it, with little work in any graph."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from itertools import pairwise

MOST_STEPS = 500
"""Edges that the search for a shorter ring looks at before it is content with the one along the tree."""

Neighbours = dict[int, dict[int, int]]
"""Node to each of its neighbours, to the number of the first edge between the two."""


def find_rings(edges: Sequence[tuple[int, int]]) -> list[list[int]]:
    """One ring for each edge beyond a spanning forest, none of them the sum of others.

    Parameters: the two nodes of each edge, which may be one and the same. A ring is the numbers of its edges in order,
    the closing one first; the rings are in the order of their closing edges. Each is the shortest through its edge
    among the edges of the forest and of the rings before it, unless that takes long to find.
    """
    rings: list[list[int]] = []
    near: Neighbours = {}
    for number, (one, other) in enumerate(edges):
        if one == other:
            rings.append([number])
        elif other in near.setdefault(one, {}):
            rings.append([number, near[one][other]])
        else:
            near[one][other] = near.setdefault(other, {})[one] = number
    forest = _Forest(near)
    grown: Neighbours = {node: {} for node in near}
    for node, above in forest.above.items():
        grown[node][above] = grown[above][node] = near[node][above]
    for number in _closing(near, forest):
        one, other = edges[number]
        way = _short_way(grown, one, other) or forest.way(one, other)
        rings.append([number, *(near[before][after] for before, after in pairwise(way))])
        grown[one][other] = grown[other][one] = number
    return sorted(rings)


class _Forest:
    """Trees of fewest steps from a node of each part of a graph."""

    def __init__(self, near: Mapping[int, Mapping[int, int]]) -> None:
        self.above: dict[int, int] = {}
        """Each node but the roots to the next one towards its root, in the order in which they were reached."""
        self.depth: dict[int, int] = {}
        for root in near:
            if root in self.depth:
                continue
            self.depth[root] = 0
            front = deque([root])
            while front:
                node = front.popleft()
                for onward in near[node]:
                    if onward not in self.depth:
                        self.depth[onward] = self.depth[node] + 1
                        self.above[onward] = node
                        front.append(onward)

    def way(self, one: int, other: int) -> list[int]:
        """The nodes from one to another of its tree, both included."""
        up, down = [one], [other]
        while up[-1] != down[-1]:
            deeper = up if self.depth[up[-1]] >= self.depth[down[-1]] else down
            deeper.append(self.above[deeper[-1]])
        return [*up, *down[-2::-1]]


def _closing(near: Neighbours, forest: _Forest) -> list[int]:
    """The edges beyond the forest, in the order in which it reached their nodes."""
    found: dict[int, None] = {}
    for node in forest.depth:
        for onward, number in near[node].items():
            if forest.above.get(node) != onward and forest.above.get(onward) != node:
                found[number] = None
    return list(found)


def _short_way(near: Neighbours, start: int, goal: int) -> list[int] | None:
    """The nodes of the shortest way between two that hang together, searched from both at once.

    None if that takes too many steps.
    """
    before: tuple[dict[int, int], dict[int, int]] = ({start: start}, {goal: goal})
    fronts = [[start], [goal]]
    steps = 0
    while True:
        work = [sum(len(near[node]) for node in front) for front in fronts]
        side = int(work[1] < work[0])
        steps += work[side]
        if steps > MOST_STEPS:
            return None
        onward = []
        for node in fronts[side]:
            for reached in near[node]:
                if reached not in before[side]:
                    before[side][reached] = node
                    onward.append(reached)
                    if reached in before[1 - side]:
                        return [*_back(before[0], reached)[::-1], *_back(before[1], reached)[1:]]
        fronts[side] = onward


def _back(before: Mapping[int, int], node: int) -> list[int]:
    """The nodes from one back to where the search began."""
    way = [node]
    while before[node] != node:
        node = before[node]
        way.append(node)
    return way
