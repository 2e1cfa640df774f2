"""Islands, against networkx: which things hang together, however they were joined."""

from __future__ import annotations

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from netaudit.network.islands import Islands

PAIRS = st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12)), max_size=20)


@given(PAIRS)
def test_two_things_are_on_one_island_exactly_if_a_chain_of_pairs_joins_them(pairs: list[tuple[int, int]]) -> None:
    islands: Islands[int] = Islands()
    for pair in pairs:
        islands.join(*pair)
    graph: nx.Graph[int] = nx.Graph(pairs)
    graph.add_nodes_from(range(13))
    found = {frozenset(other for other in graph if islands.of(other) == islands.of(thing)) for thing in graph}
    assert found == {frozenset(part) for part in nx.connected_components(graph)}


@given(PAIRS)
def test_a_join_tells_whether_it_changed_anything(pairs: list[tuple[int, int]]) -> None:
    islands: Islands[int] = Islands()
    graph: nx.Graph[int] = nx.empty_graph(13)
    for one, other in pairs:
        assert islands.join(one, other) == (not nx.has_path(graph, one, other))
        graph.add_edge(one, other)


def test_a_chain_of_a_hundred_thousand_things_is_one_island() -> None:
    islands: Islands[int] = Islands()
    assert all(islands.join(number, number + 1) for number in range(100_000))
    assert islands.of(0) == islands.of(100_000)
