"""The search: ways from every bridge towards one port, by fewest hops and then by names."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.place import PortRef
from netaudit.network.forwarding import Edge, Forwarding


class Towards:
    """The ways from every bridge towards one target, found by one search over one network."""

    def __init__(self, graph: Forwarding, target: PortRef, network: str | None) -> None:
        self.network = network
        self._graph = graph
        self._target = target
        self._next: dict[int, Edge | None] = {}
        self._hops: dict[int, int] = {}
        self._chains: dict[int, tuple[Edge, ...]] = {}
        if graph.carried[target].passes(network):
            self._search()

    def chain(self, bridge: int) -> tuple[Edge, ...]:
        """The ways from a bridge down to the target; empty if the target is on it."""
        known = self._chains.get(bridge)
        if known is None:
            ways = []
            edge = self._next[bridge]
            while edge is not None:
                ways.append(edge)
                edge = None if edge.bridge is None else self._next[edge.bridge]
            known = self._chains[bridge] = tuple(ways)
        return known

    def from_port(self, port: PortRef) -> tuple[Edge, ...] | None:
        """The shortest way from a seat's port to the target; None if there is none."""
        graph = self._graph
        own = graph.bridge_of.get(port)
        if own is not None:
            return self.chain(own) if own in self._next else None
        reaching = [edge for edge in graph.ways.get(port, ()) if self._reaches(edge)]
        first = min(reaching, key=lambda edge: (self._hops_after(edge), edge.in_port), default=None)
        if first is None:
            return None
        return (first,) if first.bridge is None else (first, *self.chain(first.bridge))

    def _reaches(self, edge: Edge) -> bool:
        arrives = edge.in_port == self._target or (edge.bridge is not None and edge.bridge in self._next)
        return arrives and self._graph.passes(edge, self.network)

    def _hops_after(self, edge: Edge) -> int:
        return 0 if edge.bridge is None else self._hops[edge.bridge]

    def _search(self) -> None:
        """Breadth first from the target; of equal ways into a bridge the first by name wins."""
        graph = self._graph
        own = graph.bridge_of.get(self._target)
        if own is not None:
            self._next[own] = None
        else:
            for edge in graph.ways.get(self._target, ()):
                if edge.bridge is not None and edge.bridge not in self._next and graph.passes(edge, self.network):
                    self._next[edge.bridge] = Edge(edge.link, edge.in_port, edge.out_port, None)
        front = list(self._next)
        hops = 1
        while front:
            self._hops.update(dict.fromkeys(front, hops))
            hops += 1
            reached: dict[int, None] = {}
            for bridge in front:
                for edge in graph.edges[bridge]:
                    other = edge.bridge
                    if other is not None and other not in self._next and graph.passes(edge, self.network):
                        reached[other] = None
            level = set(front)
            for other in reached:
                self._next[other] = next(
                    edge for edge in graph.edges[other] if edge.bridge in level and graph.passes(edge, self.network)
                )
            front = list(reached)


def networks_between(
    graph: Forwarding, one: PortRef, other: PortRef, networks: tuple[str, ...]
) -> Iterator[str | None]:
    """The networks over which two ports may meet; first None, the one without a name, if neither names one."""
    near, far = graph.carried[one], graph.carried[other]
    if near.any and far.any:
        yield None
    own = far if near.any else near
    untagged_alone = not own.any and not own.tagged
    for network in (own.untagged,) if untagged_alone else networks:
        if near.passes(network) and far.passes(network):
            yield network
