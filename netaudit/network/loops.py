"""Loops: rings of forwarding devices in one network, found from a spanning forest of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from netaudit.model.plan import Plan, Switch
from netaudit.network.forwarding import Edge, Forwarding
from netaudit.network.links import Link


@dataclass(frozen=True, slots=True)
class Loop:
    """A ring of forwarding devices."""

    networks: tuple[str | None, ...]
    """Networks whose frames can run round it."""
    devices: tuple[str, ...]
    links: tuple[Link, ...]
    unprotected: tuple[str, ...]
    """Devices on it that do not run a spanning tree, or do not say so."""


def find_loops(plan: Plan, graph: Forwarding) -> tuple[Loop, ...]:
    """Every ring of the cycle basis of each network; a ring of several networks is told once."""
    edges = list(_each_way_once(graph))
    if not list(_closing(graph, edges)):
        return ()
    found: dict[frozenset[int], tuple[list[str | None], list[Edge]]] = {}
    for network in plan.networks or (None,):
        carried = [edge for edge in edges if graph.passes(edge, network)]
        for closing, forest in _closing(graph, carried):
            ring = [closing, *forest.between(closing)]
            key = frozenset(id(edge.link) for edge in ring)
            found.setdefault(key, ([], ring))[0].append(network)
    return tuple(_loop(plan, graph, networks, ring) for networks, ring in found.values())


def _each_way_once(graph: Forwarding) -> Iterator[Edge]:
    seen: set[int] = set()
    for edges in graph.edges:
        for edge in edges:
            if id(edge.link) not in seen:
                seen.add(id(edge.link))
                yield edge


class _Forest:
    """Trees grown edge by edge, each node knowing the edge towards its root."""

    def __init__(self, graph: Forwarding) -> None:
        self._graph = graph
        self._neighbours: dict[int, list[Edge]] = {}
        self._root: dict[int, int] = {}

    def root(self, bridge: int) -> int:
        """The representative of a bridge's tree."""
        while (above := self._root.setdefault(bridge, bridge)) != bridge:
            self._root[bridge] = self._root.setdefault(above, above)
            bridge = self._root[bridge]
        return bridge

    def join(self, edge: Edge) -> bool:
        """Add an edge; False if it would close a ring."""
        one, other = self._ends(edge)
        near, far = self.root(one), self.root(other)
        if near == far:
            return False
        self._root[near] = far
        self._neighbours.setdefault(one, []).append(edge)
        self._neighbours.setdefault(other, []).append(edge)
        return True

    def between(self, closing: Edge) -> list[Edge]:
        """The edges of the tree between the two ends of an edge that is not in it."""
        start, goal = self._ends(closing)
        before: dict[int, tuple[int, Edge] | None] = {start: None}
        front = [start]
        while front and goal not in before:
            bridge = front.pop(0)
            for edge in self._neighbours.get(bridge, ()):
                one, other = self._ends(edge)
                onward = other if one == bridge else one
                if onward not in before:
                    before[onward] = (bridge, edge)
                    front.append(onward)
        way = []
        step = before[goal]
        while step is not None:
            way.append(step[1])
            step = before[step[0]]
        return way

    def _ends(self, edge: Edge) -> tuple[int, int]:
        return self._graph.bridge_of[edge.out_port], self._graph.bridge_of[edge.in_port]


def _closing(graph: Forwarding, edges: Iterable[Edge]) -> Iterator[tuple[Edge, _Forest]]:
    """Each edge that closes a ring, with the whole forest of the others."""
    forest = _Forest(graph)
    closing = [edge for edge in edges if not forest.join(edge)]
    return ((edge, forest) for edge in closing)


def _loop(plan: Plan, graph: Forwarding, networks: list[str | None], ring: list[Edge]) -> Loop:
    bridges = dict.fromkeys(graph.bridge_of[port] for edge in ring for port in (edge.out_port, edge.in_port))
    devices = tuple(dict.fromkeys(graph.names[bridge] for bridge in bridges))
    bare = tuple(name for name in devices if not _runs_tree(plan, name))
    return Loop(tuple(networks), devices, tuple(edge.link for edge in ring), bare)


def _runs_tree(plan: Plan, name: str) -> bool:
    device = plan.devices[name]
    return isinstance(device, Switch) and device.spanning_tree is True
