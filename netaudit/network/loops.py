"""Loops: rings of forwarding devices in one network, and which of them hang together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from netaudit.model.plan import Plan, Switch
from netaudit.network.forwarding import Edge, Forwarding
from netaudit.network.islands import Islands
from netaudit.network.links import Link
from netaudit.network.rings import find_rings


@dataclass(frozen=True, slots=True)
class Loop:
    """A ring of forwarding devices."""

    networks: tuple[str | None, ...]
    """Networks whose frames can run round it."""
    devices: tuple[str, ...]
    links: tuple[Link, ...]
    unprotected: tuple[str, ...]
    """Devices on it that do not run a spanning tree, or do not say so."""
    mesh: int
    """Number of the mesh it is part of, from 0: loops that share a link, directly or through others, are in one."""


_Found = dict[frozenset[int], tuple[list[tuple[str | None, ...]], list[Edge]]]
"""The links of a ring by identity, to the groups of networks that it is one of, and its edges."""


def find_loops(plan: Plan, graph: Forwarding) -> tuple[Loop, ...]:
    """A ring for each link that closes one in each network, mostly the shortest; one of several networks once."""
    edges = list(_each_way_once(graph))
    if not _has_ring(graph, edges):
        return ()
    found: _Found = {}
    for networks, carried in _carried_alike(plan, graph, edges):
        for numbers in find_rings([_ends(graph, edge) for edge in carried]):
            ring = [carried[number] for number in numbers]
            found.setdefault(frozenset(id(edge.link) for edge in ring), ([], ring))[0].append(networks)
    meshes = _meshes(found)
    return tuple(
        _loop(plan, graph, _in_order(plan, networks), ring, mesh)
        for (networks, ring), mesh in zip(found.values(), meshes, strict=True)
    )


def _each_way_once(graph: Forwarding) -> Iterator[Edge]:
    seen: set[int] = set()
    for edges in graph.edges:
        for edge in edges:
            if id(edge.link) not in seen:
                seen.add(id(edge.link))
                yield edge


def _ends(graph: Forwarding, edge: Edge) -> tuple[int, int]:
    return graph.bridge_of[edge.out_port], graph.bridge_of[edge.in_port]


def _has_ring(graph: Forwarding, edges: Sequence[Edge]) -> bool:
    """Whether the links close any ring, whatever network they carry."""
    islands: Islands[int] = Islands()
    return not all(islands.join(*_ends(graph, edge)) for edge in edges)


def _carried_alike(
    plan: Plan, graph: Forwarding, edges: Sequence[Edge]
) -> Iterator[tuple[tuple[str | None, ...], list[Edge]]]:
    """The networks of a plan, those together that pass the same links, with these.

    The links that pass every network come first, so that the rings they close are the same ones in each.
    """
    alike: dict[tuple[int, int, bool], list[int]] = {}
    for number, edge in enumerate(edges):
        carried = id(graph.carried[edge.out_port]), id(graph.carried[edge.in_port])
        alike.setdefault((*carried, edge.link.by_radio), []).append(number)
    everywhere: list[int] = []
    named: dict[str, list[list[int]]] = {}
    for numbers in alike.values():
        own = graph.named(edges[numbers[0]])
        if own is None:
            everywhere.extend(numbers)
        for name in own or ():
            named.setdefault(name, []).append(numbers)
    groups: dict[tuple[int, ...], list[str | None]] = {}
    for network in plan.networks or (None,):
        groups.setdefault(tuple(id(part) for part in named.get(network or "", ())), []).append(network)
    for networks in groups.values():
        parts = named.get(networks[0] or "", ())
        yield tuple(networks), [edges[number] for number in (*everywhere, *sorted(chain(*parts)))]


def _meshes(found: _Found) -> list[int]:
    """The number of each ring's mesh, in the order in which they come up."""
    islands: Islands[int] = Islands()
    for links in found:
        first = next(iter(links))
        for link in links:
            islands.join(link, first)
    numbers: dict[int, int] = {}
    return [numbers.setdefault(islands.of(next(iter(links))), len(numbers)) for links in found]


def _in_order(plan: Plan, groups: Sequence[tuple[str | None, ...]]) -> tuple[str | None, ...]:
    """The networks of one or more groups, in file order."""
    if len(groups) == 1:
        return groups[0]
    every = frozenset(chain(*groups))
    return tuple(network for network in plan.networks if network in every)


def _loop(plan: Plan, graph: Forwarding, networks: tuple[str | None, ...], ring: list[Edge], mesh: int) -> Loop:
    bridges = dict.fromkeys(bridge for edge in ring for bridge in _ends(graph, edge))
    devices = tuple(dict.fromkeys(graph.names[bridge] for bridge in bridges))
    bare = tuple(name for name in devices if not _runs_tree(plan, name))
    return Loop(networks, devices, tuple(edge.link for edge in ring), bare, mesh)


def _runs_tree(plan: Plan, name: str) -> bool:
    device = plan.devices[name]
    return isinstance(device, Switch) and device.spanning_tree is True
