"""Rings, against networkx: as many as edges close one, independent of each other, and short."""

from __future__ import annotations

from collections import Counter

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.network.rings import MOST_STEPS, find_rings

Edges = list[tuple[int, int]]
GRAPHS = st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), max_size=30)


def graph_of(edges: Edges) -> nx.MultiGraph[int]:
    graph: nx.MultiGraph[int] = nx.MultiGraph()
    graph.add_edges_from((*edge, number) for number, edge in enumerate(edges))
    return graph


@settings(deadline=None)
@given(GRAPHS)
def test_there_are_as_many_rings_as_the_cycle_space_has_dimensions_and_each_has_a_closing_edge_of_its_own(
    edges: Edges,
) -> None:
    graph = graph_of(edges)
    rings = find_rings(edges)
    assert len(rings) == len(edges) - len(graph) + nx.number_connected_components(graph)
    closing = [ring[0] for ring in rings]
    assert closing == sorted(set(closing))
    kept = graph_of(edges)
    kept.remove_edges_from([(*edges[number], number) for number in closing])
    assert not kept or nx.is_forest(kept)


@settings(deadline=None)
@given(GRAPHS)
def test_no_ring_is_the_sum_of_others(edges: Edges) -> None:
    """Gauss elimination over the edges, each ring a sum of bits: the rank is the number of rings."""
    rows = [sum(1 << number for number in ring) for ring in find_rings(edges)]
    rank = 0
    while rows:
        row = rows.pop()
        rank += row != 0
        rows = [min(other, other ^ row) if other.bit_length() == row.bit_length() else other for other in rows]
    assert rank == len(find_rings(edges))


@settings(deadline=None)
@given(GRAPHS)
def test_each_ring_is_one_closed_way_that_passes_no_node_twice(edges: Edges) -> None:
    for ring in find_rings(edges):
        ends = Counter(node for number in ring for node in edges[number])
        assert set(ends.values()) == {2}
        assert len(ends) == len(ring) == len(set(ring))
        part = graph_of(edges).edge_subgraph([(*edges[number], number) for number in ring])
        assert nx.is_connected(part)


@settings(deadline=None)
@given(GRAPHS)
def test_two_edges_share_a_block_exactly_if_rings_chain_them_together(edges: Edges) -> None:
    """networkx, biconnected components of the graph without its parallel edges and those from a node to itself."""
    simple = list({tuple(sorted(edge)): edge for edge in edges if edge[0] != edge[1]}.values())
    chained: nx.Graph[int] = nx.Graph()
    for ring in find_rings(simple):
        nx.add_path(chained, ring)
    blocks = nx.biconnected_component_edges(nx.Graph(simple))
    expected = {frozenset(frozenset(edge) for edge in block) for block in blocks if len(list(block)) > 1}
    found = {frozenset(frozenset(simple[number]) for number in part) for part in nx.connected_components(chained)}
    assert found == expected


def test_an_edge_from_a_node_to_itself_is_a_ring_and_so_are_two_parallel_ones() -> None:
    assert find_rings([(7, 7)]) == [[0]]
    assert find_rings([(1, 2), (2, 1), (1, 2)]) == [[1, 0], [2, 0]]
    assert find_rings([(1, 2), (2, 3)]) == []
    assert find_rings([]) == []


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("rungs_first", [False, True])
def test_every_rung_of_a_long_ladder_closes_a_ring_of_four(turned: bool, rungs_first: bool) -> None:
    rails = [(side * 2000 + step, side * 2000 + step + 1) for side in (0, 1) for step in range(1999)]
    rungs = [(step, 2000 + step) for step in range(2000)]
    edges = rungs + rails if rungs_first else rails + rungs
    rings = find_rings(edges[::-1] if turned else edges)
    assert len(rings) == 1999
    assert {len(ring) for ring in rings} == {4}


def test_parallel_edges_a_full_mesh_and_spokes_have_short_rings_however_many_they_are() -> None:
    assert {len(ring) for ring in find_rings([(0, 1)] * 5000)} == {2}
    full = [(one, other) for one in range(80) for other in range(one)]
    assert {len(ring) for ring in find_rings(full)} == {3}
    wheel = [(0, leaf) for leaf in range(1, 5001)] + [(leaf, leaf + 1) for leaf in range(1, 5000)]
    assert {len(ring) for ring in find_rings(wheel)} == {3}
    between = [(hub, leaf) for hub in (0, 1) for leaf in range(2, 3002)]
    assert {len(ring) for ring in find_rings(between)} == {4}


def test_a_ring_that_is_longer_than_the_search_is_found_along_the_tree() -> None:
    count = 2 * MOST_STEPS
    (ring,) = find_rings([(node, (node + 1) % count) for node in range(count)])
    assert sorted(ring) == list(range(count))
