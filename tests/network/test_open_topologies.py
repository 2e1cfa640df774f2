"""Rooms wired like published networks, against networkx, rustworkx and the figures that come with the data.

The graphs are those of SNDlib 1.0 (Orlowski, Pióro, Tomaszewski, Wessäly, Networks 55(3), 2010) and random Gabriel
graphs, as the package topohub ships them: every node becomes a switch, every edge a cable.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Any

import networkx as nx
import pytest
import rustworkx as rx
import topohub
from wiring import cable, jack, many, seat, switch, topology_of, vault

from netaudit.network.topology import Topology

SNDLIB = (
    "abilene", "atlanta", "brain", "cost266", "dfn-bwin", "dfn-gwin", "di-yuan", "france", "geant", "germany50",
    "giul39", "india35", "janos-us", "janos-us-ca", "newyork", "nobel-eu", "nobel-germany", "nobel-us", "norway", "pdh",
    "pioro40", "polska", "sun", "ta1", "ta2", "zib54",
)  # fmt: skip
KEYS = (*(f"sndlib/{name}" for name in SNDLIB), "gabriel/25/0", "gabriel/50/1", "gabriel/100/2", "gabriel/200/3")
FEW = 40
"""Nodes up to which every pair of nodes is asked about."""

Edges = list[tuple[int, int]]

every_network = pytest.mark.parametrize("key", KEYS)


@cache
def published(key: str) -> dict[str, Any]:
    """A network as it is published, with figures of its own."""
    return dict(json.loads((files(topohub) / "data" / f"{key}.json").read_text(encoding="utf-8")))


def nodes_of(key: str) -> int:
    return int(published(key)["graph"]["stats"]["nodes"])


def edges_of(key: str) -> Edges:
    return [(edge["source"], edge["target"]) for edge in published(key)["edges"]]


def broken(key: str, chance: random.Random) -> Edges:
    """Two thirds of the edges of a network."""
    edges = edges_of(key)
    return chance.sample(edges, len(edges) * 2 // 3)


def chance_of(key: str) -> random.Random:
    """The same chance in every run."""
    return random.Random(key)  # noqa: S311 - no secret


def room(nodes: int, edges: Edges, seats: Iterable[int], vaults: Iterable[int]) -> Topology:
    """A switch for each node, a cable for each edge, and a seat or a vault on some of the switches."""
    ends = [(seat(f"cut-{node}"), node) for node in seats] + [(vault(f"vault-{node}"), node) for node in vaults]
    ports = max((sum(node in edge for edge in edges) for node in range(nodes)), default=0) + 2
    free = {node: iter(range(1, ports + 1)) for node in range(nodes)}
    between = [(f"n{one}/{next(free[one])}", f"n{other}/{next(free[other])}") for one, other in edges]
    drops = [(f"{end.name}/{next(iter(end.ports))}", f"n{node}/{next(free[node])}") for end, node in ends]
    return topology_of(
        *(end for end, _ in ends),
        *(switch(f"n{node}", many(ports, jack())) for node in range(nodes)),
        *(cable(f"C{number}", *pair) for number, pair in enumerate([*between, *drops])),
    )


def switches_between(topology: Topology) -> dict[tuple[int, int], int | None]:
    """For each node with a seat and each with a vault the cables between their switches; None without a road."""
    return {
        (node_of(path.station), node_of(path.storage)): len(path.hops) - 2 if path.hops else None
        for path in topology.paths
    }


def node_of(name: str) -> int:
    return int(name.rpartition("-")[2])


def by_networkx(nodes: int, edges: Edges) -> nx.Graph[int]:
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(nodes))
    graph.add_edges_from(edges)
    return graph


def by_rustworkx(nodes: int, edges: Edges) -> rx.PyGraph[int, None]:
    graph: rx.PyGraph[int, None] = rx.PyGraph()
    graph.add_nodes_from(range(nodes))
    graph.add_edges_from_no_data(edges)
    return graph


@every_network
def test_every_road_has_as_many_cables_as_the_shortest_path_of_two_graph_libraries(key: str) -> None:
    nodes, edges = nodes_of(key), edges_of(key)
    vaults = range(nodes) if nodes <= FEW else chance_of(key).sample(range(nodes), 5)
    networkx, rustworkx = by_networkx(nodes, edges), by_rustworkx(nodes, edges)
    expected_one, expected_other = {}, {}
    for target in vaults:
        lengths = nx.single_source_shortest_path_length(networkx, target)
        expected_one |= {(node, target): lengths.get(node) for node in range(nodes)}
        ways = rx.dijkstra_shortest_path_lengths(rustworkx, target, lambda _: 1.0)
        expected_other |= {(node, target): 0 if node == target else round(ways[node]) for node in range(nodes)}

    found = switches_between(room(nodes, edges, range(nodes), vaults))

    assert expected_one == found
    assert expected_other == found


@every_network
def test_the_longest_road_is_the_diameter_that_is_published_with_the_network(key: str) -> None:
    stats = published(key)["graph"]["stats"]
    far = nx.periphery(by_networkx(stats["nodes"], edges_of(key)))[0]
    found = switches_between(room(stats["nodes"], edges_of(key), range(stats["nodes"]), [far]))

    assert stats["diameter_hops"] == max(hops for hops in found.values() if hops is not None)


@every_network
def test_switches_links_and_rings_are_as_many_as_the_network_has(key: str) -> None:
    stats = published(key)["graph"]["stats"]
    nodes, edges = stats["nodes"], edges_of(key)
    topology = room(nodes, edges, [0], [nodes - 1])

    assert nodes == len(topology.forwarding.names)
    assert stats["links"] + 2 == len(topology.links)
    assert stats["links"] - nodes + 1 == len(topology.loops)
    assert len(rx.cycle_basis(by_rustworkx(nodes, edges))) == len(topology.loops)


@every_network
def test_the_links_of_a_ring_are_a_cycle_of_the_network(key: str) -> None:
    nodes, edges = nodes_of(key), edges_of(key)
    names = {f"n{node}": node for node in range(nodes)}
    whole = {frozenset(edge) for edge in edges}
    for loop in room(nodes, edges, [0], [nodes - 1]).loops:
        ring = [(names[link.near.device], names[link.far.device]) for link in loop.links]

        assert whole >= {frozenset(edge) for edge in ring}
        assert nx.is_connected(nx.Graph(ring))
        assert {2} == {degree for _, degree in nx.MultiGraph(ring).degree()}
        assert {names[device] for device in loop.devices} == {node for edge in ring for node in edge}


@every_network
def test_in_a_network_that_fell_apart_a_seat_reaches_just_the_vaults_of_its_own_part(key: str) -> None:
    nodes, chance = nodes_of(key), chance_of(key)
    edges = broken(key, chance)
    seats, vaults = chance.sample(range(nodes), min(nodes, 20)), chance.sample(range(nodes), min(nodes, 20))
    networkx, rustworkx = by_networkx(nodes, edges), by_rustworkx(nodes, edges)
    topology = room(nodes, edges, seats, vaults)
    reached = {pair for pair, hops in switches_between(topology).items() if hops is not None}
    pairs = [(one, other) for one in seats for other in vaults]
    parts = list(nx.connected_components(networkx))

    assert {pair for pair in pairs if any(set(pair) <= part for part in parts)} == reached
    assert {pair for pair in pairs if pair[0] == pair[1] or rx.has_path(rustworkx, *pair)} == reached
    assert len(edges) - nodes + len(parts) == len(topology.loops)
    assert rx.number_connected_components(rustworkx) == len(parts)


def test_the_networks_that_fall_apart_do_so() -> None:
    """Otherwise the test before would prove nothing."""
    graphs = [by_networkx(nodes_of(key), broken(key, chance_of(key))) for key in KEYS]

    assert len(KEYS) // 2 < sum(nx.number_connected_components(graph) > 1 for graph in graphs)
