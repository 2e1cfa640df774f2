"""The spanning tree of a plan: what is blocked, what stays open, and what is none of its business."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import G, cable, device, jack, many, network, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Bond, Cable, Plan, Port, Switch
from netaudit.network.topology import Topology, build_topology
from netaudit.network.tree import MOST_ROOTS


def treed(name: str, number: int | None = None, ports: int = 8, rate: float = 10, **fields: object) -> Switch:
    """A switch that runs a spanning tree, its address ending in a number."""
    mac = None if number is None else f"02:00:5e:00:00:{number:02x}"
    jacks = many(ports, jack() if rate == 10 else jack(rate))
    return replace(switch(name, jacks, spanning_tree=True, mac=mac), **fields)


def blocked(topology: Topology) -> set[str]:
    return {one.link.cables[0] for one in topology.tree.blocked}


def detours(topology: Topology) -> dict[str, list[str]]:
    return {one.link.cables[0]: [link.cables[0] for link in one.detour] for one in topology.tree.blocked}


RING = (cable("ab", "a/1", "b/1"), cable("bc", "b/2", "c/1"), cable("ca", "c/2", "a/2"))


def test_the_link_opposite_the_root_is_blocked_and_frames_go_the_other_way() -> None:
    topology = topology_of(treed("a", 1), treed("b", 2), treed("c", 3), *RING)

    assert {"bc": ["ab", "ca"]} == detours(topology)
    assert () == topology.tree.open


def test_the_slow_switch_as_root_blocks_the_fast_link() -> None:
    slow, fast = treed("a", 1, rate=1), (treed("b", 2), treed("c", 3))

    assert {"bc"} == blocked(topology_of(slow, *fast, *RING))
    assert {"ca"} == blocked(topology_of(slow, replace(fast[0], priority=4096), fast[1], *RING))


def test_a_priority_that_nobody_set_is_the_default_of_32768() -> None:
    """IEEE 802.1D: default priority 32768, in steps of 4096."""
    lower, higher = treed("b", 9, priority=28672), treed("b", 9, priority=36864)

    assert {"ca"} == blocked(topology_of(treed("a", 1), lower, treed("c", 3), *RING))
    assert {"bc"} == blocked(topology_of(treed("a", 1), higher, treed("c", 3), *RING))


def test_without_identities_it_is_open_what_is_blocked_and_whose_fault_it_is() -> None:
    topology = topology_of(treed("a"), treed("b"), treed("c"), *RING)
    (mesh,) = topology.tree.open

    assert set() == blocked(topology)
    assert ("root", ("a", "b", "c"), 3) == (mesh.why, mesh.devices, len(mesh.links))
    assert {id(link) for link in mesh.links} == set(topology.open_rates)


def test_a_link_that_every_outcome_blocks_is_closed_though_the_rest_is_open() -> None:
    """a or d is the root, and each would open another of the two links between them; nobody goes over b and c."""
    lines = (
        cable("one", "a/1", "d/2"), cable("two", "a/2", "d/1"),
        cable("ab", "a/3", "b/1"), cable("bc", "b/2", "c/1"), cable("cd", "c/2", "d/3"),
    )  # fmt: skip
    switches = (treed("a"), treed("b", 1, priority=61440), treed("c", 9, priority=61440), treed("d"))
    topology = topology_of(*switches, *lines)
    (mesh,) = topology.tree.open

    assert {"one", "two", "ab", "bc", "cd"} == {link.cables[0] for link in mesh.links}
    assert ["bc"] == [link.cables[0] for link in mesh.closed]
    assert mesh.closed == topology.tree.closed


def test_a_mesh_of_unknown_cost_closes_nothing() -> None:
    topology = topology_of(
        treed("a", 1), replace(treed("b", 2), ports=many(8, Port(connector="rj45"))), treed("c", 3), *RING
    )

    assert ((), 1) == (topology.tree.closed, len(topology.tree.open))


def test_identities_are_asked_for_only_where_they_decide() -> None:
    pair = (cable("fast", "a/1", "b/1"), cable("slow", "a/5", "b/5"))
    ports = {**many(4, jack()), "5": jack(1)}
    switches = [switch(name, ports, spanning_tree=True) for name in "ab"]

    assert {"slow"} == blocked(topology_of(*switches, *pair))


def test_a_ring_with_a_device_that_runs_no_tree_is_not_cut() -> None:
    topology = topology_of(treed("a", 1), treed("b", 2), switch("c"), *RING)

    assert (set(), ()) == (blocked(topology), topology.tree.open)


@pytest.mark.parametrize("silent", [False, None])
def test_a_switch_that_does_not_say_runs_no_tree(silent: bool | None) -> None:
    topology = topology_of(treed("a", 1), treed("b", 2), replace(treed("c", 3), spanning_tree=silent), *RING)

    assert set() == blocked(topology)


def test_a_cord_back_into_the_same_switch_is_blocked() -> None:
    assert {"loop": []} == detours(topology_of(treed("a"), cable("loop", "a/1", "a/2")))


def test_bonded_links_are_one() -> None:
    bonds = {"trunk": Bond(("1", "2"))}
    topology = topology_of(
        treed("a", bonds=bonds), treed("b", bonds=bonds), cable("one", "a/1", "b/1"), cable("two", "a/2", "b/2")
    )

    assert (set(), ()) == (blocked(topology), topology.tree.open)


def test_a_bond_whose_two_costs_lead_to_the_same_tree_settles_it() -> None:
    bonds = {"trunk": Bond(("1", "4"))}
    lines = (*RING, cable("ab2", "a/4", "b/4"))
    topology = topology_of(treed("a", 1, bonds=bonds), treed("b", 2, bonds=bonds), treed("c", 3), *lines)

    assert {"bc"} == blocked(topology)


def test_a_bond_that_counts_in_two_ways_leaves_open_what_it_decides() -> None:
    """Two links of 1 Gb/s cost 20,000 one way and 10,000 the other; the way round by c costs 16,000 at 2.5 Gb/s."""
    bonds = {"trunk": Bond(("1", "4"))}
    ports = {"1": jack(1), "2": jack(2.5), "4": jack(1)}
    lines = (
        cable("ab", "a/1", "b/1"), cable("ab2", "a/4", "b/4"), cable("ac", "a/2", "c/1"), cable("bc", "b/2", "c/2")
    )  # fmt: skip
    one, other = (treed(name, number, bonds=bonds) for number, name in enumerate("ab", 1))
    topology = topology_of(replace(one, ports=ports), replace(other, ports=ports), treed("c", 3), *lines)

    assert ["bond"] == [mesh.why for mesh in topology.tree.open]


def test_a_bond_whose_members_together_have_no_cost_on_the_short_scale_leaves_its_ring_open() -> None:
    """The short scale, IEEE 802.1D-1998 table 8-5, ends at 10 Gb/s: it has no cost for 20 Gb/s."""
    bonds = {"trunk": Bond(("1", "4"))}
    boxes = [treed("a", 1, bonds=bonds), treed("b", 2, bonds=bonds), treed("c", 3)]
    plan = wired(*boxes, *RING, cable("ab2", "a/4", "b/4"), tree_costs="short")

    assert ["cost"] == [mesh.why for mesh in build_topology(plan).tree.open]


def test_two_switches_of_which_either_may_be_the_root_leave_it_open() -> None:
    topology = topology_of(treed("a", priority=4096), treed("b", priority=4096), treed("c", 3), *RING)

    assert ["root"] == [mesh.why for mesh in topology.tree.open]


def test_ports_bonded_at_one_end_alone_are_counted_each_for_itself() -> None:
    """The same room, where b knows of no bond: each link of 1 Gb/s costs 20,000, and the way round by c is cheaper."""
    bonds = {"trunk": Bond(("1", "4"))}
    ports = {"1": jack(1), "2": jack(2.5), "4": jack(1)}
    lines = (
        cable("ab", "a/1", "b/1"), cable("ab2", "a/4", "b/4"), cable("ac", "a/2", "c/1"), cable("bc", "b/2", "c/2")
    )  # fmt: skip
    one, other = replace(treed("a", 1, bonds=bonds), ports=ports), replace(treed("b", 2), ports=ports)

    assert {"ab", "ab2"} == blocked(topology_of(one, other, treed("c", 3), *lines))


def test_a_rate_that_is_unknown_leaves_its_ring_open_and_no_other() -> None:
    lines = (
        *RING, cable("cd", "c/3", "d/1"), cable("de", "d/2", "e/1"), cable("ec", "e/2", "c/4"),
        cable("ex", "e/3", "x/1"),
    )  # fmt: skip
    silent = replace(treed("b", 2), ports=many(8, Port(connector="rj45")))
    topology = topology_of(
        treed("a", 1), silent, *(treed(name, 5 + n) for n, name in enumerate("cde")), treed("x", 9), *lines
    )

    assert [("cost", {"a", "b", "c"})] == [(mesh.why, set(mesh.devices)) for mesh in topology.tree.open]
    assert {"de"} == blocked(topology)


def test_the_short_scale_has_no_cost_for_some_rates() -> None:
    plan = wired(treed("a", 1, rate=5), treed("b", 2, rate=5), treed("c", 3, rate=5), *RING)

    assert {"bc"} == blocked(build_topology(plan))
    assert ["cost"] == [mesh.why for mesh in build_topology(replace(plan, tree_costs="short")).tree.open]


def test_two_rings_that_hang_together_by_a_switch_are_settled_each_for_itself() -> None:
    lines = (*RING, cable("cd", "c/3", "d/1"), cable("de", "d/2", "e/1"), cable("ec", "e/2", "c/4"))
    topology = topology_of(*(treed(name, number) for number, name in enumerate("abcde", 1)), *lines)

    assert {"bc", "de"} == blocked(topology)


def test_one_tree_for_all_networks_blocks_a_link_that_carries_another_one() -> None:
    ports = {"1": jack(untagged="media"), "2": jack(untagged="office"), "3": jack(untagged="office")}
    plan = [
        network("media"), network("office"), seat("cut-1", {"wire": jack(untagged="office")}), vault(ports={"fast": jack(untagged="office")}),
        cable("C", "cut-1/wire", "a/3"), cable("V", "vault/fast", "b/3"),
        cable("m", "a/1", "b/1"), cable("o", "a/2", "b/2"),
    ]  # fmt: skip
    with_tree = topology_of(*(switch(name, ports, spanning_tree=True) for name in "ab"), *plan)
    without = topology_of(*(switch(name, ports) for name in "ab"), *plan)

    assert {"o"} == blocked(with_tree)
    assert [False, True] == [bool(topology.paths[0].hops) for topology in (with_tree, without)]


def test_an_open_mesh_whose_links_carry_different_networks_promises_nothing() -> None:
    ports = {"1": jack(untagged="media"), "2": jack(untagged="media"), "3": jack(untagged="office")}
    lines = (cable("ab", "a/1", "b/1"), cable("bc", "b/2", "c/1"), cable("ca", "c/3", "a/3"))
    switches = (switch(name, ports, spanning_tree=True) for name in "abc")
    topology = topology_of(network("media"), network("office"), *switches, *lines)

    assert {0} == {bounds.least_bit_per_s for bounds in topology.open_rates.values()}
    assert {10 * G} == {bounds.most_bit_per_s for bounds in topology.open_rates.values()}


def test_too_many_switches_without_identities_are_not_tried_one_by_one() -> None:
    names = [f"s{number}" for number in range(MOST_ROOTS + 1)]
    ring = [cable(f"{one}", f"{one}/1", f"{other}/2") for one, other in zip(names, [*names[1:], names[0]], strict=True)]
    unknown = topology_of(*(treed(name) for name in names), *ring)
    known = topology_of(treed(names[0], priority=0), *(treed(name, n) for n, name in enumerate(names[1:], 1)), *ring)

    assert ["root"] == [mesh.why for mesh in unknown.tree.open]
    assert 1 == len(known.tree.blocked)


@pytest.mark.parametrize(("count", "settled"), [(32, True), (33, False)])
def test_up_to_32_switches_without_identities_are_tried_one_by_one(count: int, settled: bool) -> None:
    """A row of switches, the first two joined twice: whichever is the root, the slow one of the two is blocked."""
    names = [f"s{number}" for number in range(count)]
    row = [cable(f"{one}{other}", f"{one}/1", f"{other}/2") for one, other in pairwise(names)]
    switches = [replace(treed(name), ports={**many(2, jack()), "3": jack(1)}) for name in names]
    topology = topology_of(*switches, *row, cable("slow", "s0/3", "s1/3"))

    assert ({"slow"} if settled else set()) == blocked(topology)
    assert settled == (not topology.tree.open)


def test_hosts_and_routers_take_no_part() -> None:
    bridging = seat("cut-1", {"1": jack(), "2": jack()}, bridges=("1", "2"))
    through_host = topology_of(treed("a", 1), treed("b", 2), bridging,
                               cable("ab", "a/1", "b/1"), cable("ah", "a/2", "cut-1/1"), cable("bh", "b/2", "cut-1/2"))  # fmt: skip
    router = device("r", "router", many(2, jack()))
    through_router = topology_of(treed("a", 1), treed("b", 2), router,
                                 cable("ab", "a/1", "b/1"), cable("ar", "a/2", "r/1"), cable("br", "b/2", "r/2"))  # fmt: skip

    assert (set(), set()) == (blocked(through_host), blocked(through_router))


@st.composite
def meshes(draw: st.DrawFn) -> Plan:
    """Up to seven switches with identities, any two joined by up to two links of two speeds."""
    size = draw(st.integers(2, 7))
    names = [f"s{number}" for number in range(size)]
    fast, slow = jack(), jack(1)
    pair = st.tuples(st.integers(0, size - 1), st.integers(0, size - 1), st.booleans())
    joined = [each for each in draw(st.lists(pair, max_size=14)) if each[0] != each[1]]
    ports: dict[str, dict[str, Port]] = {name: {} for name in names}
    lines: list[Cable] = []
    for number, (one, other, is_fast) in enumerate(joined):
        near, far = names[one], names[other]
        ports[near][f"p{number}"] = ports[far][f"p{number}"] = fast if is_fast else slow
        lines.append(cable(f"C{number}", f"{near}/p{number}", f"{far}/p{number}"))
    order = draw(st.permutations(range(size)))
    switches = [
        switch(name, ports[name], spanning_tree=True, mac=f"02:00:5e:00:00:{order[place]:02x}")
        for place, name in enumerate(names)
    ]
    return wired(*switches, *lines)


@settings(max_examples=200, deadline=None)
@given(meshes())
def test_what_is_left_open_is_a_tree_of_least_costs_over_every_part(plan: Plan) -> None:
    """networkx: the open links form a spanning forest, and each switch keeps its least cost to the root."""
    topology = build_topology(plan)
    closed = {id(one.link) for one in topology.tree.blocked}
    whole, left = nx.MultiGraph(), nx.Graph()
    whole.add_nodes_from(plan.devices)
    left.add_nodes_from(plan.devices)
    for link in topology.links:
        cost = 20_000_000_000_000 // (link.agreed_bit_per_s or 0)
        whole.add_edge(link.near.device, link.far.device, weight=cost)
        if id(link) not in closed:
            left.add_edge(link.near.device, link.far.device, weight=cost)

    assert () == topology.tree.open
    assert nx.is_forest(left)
    for part in nx.connected_components(whole):
        root = min(part, key=lambda name: getattr(plan.devices[name], "mac", ""))
        far = nx.single_source_dijkstra_path_length(whole, root)
        assert far == nx.single_source_dijkstra_path_length(left, root)
    for one in topology.tree.blocked:
        walk = nx.Graph([(link.near.device, link.far.device) for link in one.detour])
        assert nx.has_path(walk, one.link.near.device, one.link.far.device)
