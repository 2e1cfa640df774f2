"""Loops, against networkx: as many rings in each network as edges close one, and which of them are protected."""

from __future__ import annotations

from collections import Counter

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import aerial, cable, chain, device, jack, many, network, panel, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Bond, Cable, Device, Network, Plan, Port, Switch
from netaudit.network.loops import Loop
from netaudit.network.topology import build_topology

MEDIA, OFFICE = network("media"), network("office")


def loops(*things: Device | Cable | Network) -> tuple[Loop, ...]:
    return topology_of(*things).loops


def ring(*names: str) -> list[Cable]:
    """Cables that join switches in a ring."""
    return [*chain(names), cable("closing", f"{names[-1]}/2", f"{names[0]}/1")]


def test_a_tree_has_no_loop() -> None:
    lines = [cable("U1", "root/1", "left/1"), cable("U2", "root/2", "right/1"), cable("U3", "left/2", "leaf/1")]
    assert loops(*map(switch, ["root", "left", "right", "leaf"]), *lines) == ()


def test_a_triangle_is_one_loop_with_its_devices_and_links() -> None:
    (loop,) = loops(*map(switch, "abc"), *ring(*"abc"))
    assert set(loop.devices) == {"a", "b", "c"}
    assert {link.cables for link in loop.links} == {("a-b",), ("b-c",), ("closing",)}
    assert set(loop.unprotected) == {"a", "b", "c"}
    assert loop.networks == (None,)


def test_two_parallel_cables_are_one_loop_and_in_two_bonds_none() -> None:
    lines = [cable("C1", "a/1", "b/1"), cable("C2", "a/2", "b/2")]
    (loop,) = loops(switch("a"), switch("b"), *lines)
    assert {link.cables for link in loop.links} == {("C1",), ("C2",)}
    bond = {"lag": Bond(ports=("1", "2"))}
    assert loops(switch("a", bonds=bond), switch("b", bonds=bond), *lines) == ()
    assert len(loops(switch("a", bonds=bond), switch("b"), *lines)) == 1


def test_two_outlets_of_one_switch_patched_together_are_a_loop_of_that_switch_alone() -> None:
    lines = [cable("W1", "core/1", "plate/1"), cable("C", "plate/1", "desk/2"), cable("W2", "desk/2", "core/2")]
    (loop,) = loops(switch("core"), panel("plate"), panel("desk"), *lines)
    assert (loop.devices, loop.unprotected) == (("core",), ("core",))
    assert [sorted(link.cables) for link in loop.links] == [["C", "W1", "W2"]]


def keyed(one: Port, other: Port) -> tuple[Loop, ...]:
    """The loops of two switches joined by two cables, each end of each alike."""
    ports = {"1": one, "2": other}
    lines = [cable("C1", "a/1", "b/1"), cable("C2", "a/2", "b/2")]
    return loops(MEDIA, OFFICE, switch("a", ports), switch("b", ports), *lines)


def test_a_cable_for_each_of_two_networks_is_no_loop() -> None:
    assert keyed(jack(untagged="media"), jack(untagged="office")) == ()
    assert keyed(jack(untagged="media"), jack(tagged=("office",))) == ()


def test_two_cables_that_both_carry_two_networks_are_told_once_with_both() -> None:
    trunk = jack(untagged="office", tagged=("media",))
    (loop,) = keyed(trunk, trunk)
    assert loop.networks == ("media", "office")


def test_a_loop_is_one_of_the_networks_that_run_all_the_way_round() -> None:
    trunk = jack(untagged="office", tagged=("media",))
    (loop,) = keyed(trunk, jack(tagged=("media",)))
    assert loop.networks == ("media",)
    (loop,) = keyed(jack(), jack(untagged="office"))
    assert loop.networks == ("office",)


def test_a_cable_of_which_one_end_names_a_network_and_the_other_none_carries_that_one_alone() -> None:
    lines = [cable("C1", "a/1", "b/1"), cable("C2", "a/2", "b/2")]
    near, far = {"1": jack(), "2": jack()}, {"1": jack(), "2": jack(untagged="media")}
    for one, other in ((near, far), (far, near)):
        (loop,) = loops(MEDIA, OFFICE, switch("a", one), switch("b", other), *lines)
        assert loop.networks == ("media",)


def test_a_ring_of_keyless_ports_is_a_loop_of_every_network() -> None:
    (loop,) = keyed(jack(), jack())
    assert loop.networks == ("media", "office")


def test_a_ring_that_a_mismatch_of_tags_interrupts_is_none() -> None:
    lines = [cable("C1", "a/1", "b/1"), cable("C2", "a/2", "b/2")]
    near = {"1": jack(untagged="media"), "2": jack(untagged="media")}
    far = {"1": jack(untagged="media"), "2": jack(tagged=("media",))}
    assert loops(MEDIA, switch("a", near), switch("b", far), *lines) == ()


def test_hosts_close_no_loop_unless_they_bridge() -> None:
    ports = {"1": jack(), "2": jack()}
    lines = [cable("C1", "host/1", "a/1"), cable("C2", "host/2", "b/1"), cable("U", "a/2", "b/2")]
    assert loops(switch("a"), switch("b"), seat("host", ports), *lines) == ()
    assert loops(switch("a"), switch("b"), vault("host", ports), *lines) == ()
    (loop,) = loops(switch("a", spanning_tree=True), switch("b", spanning_tree=True),
                    seat("host", ports, bridges=("1", "2")), *lines)  # fmt: skip
    assert set(loop.devices) == {"a", "b", "host"}
    assert loop.unprotected == ("host",)


def test_a_seat_that_bridges_its_radio_to_its_cable_closes_a_loop() -> None:
    base = device("ap", "access-point", {"wl": aerial(), "lan": jack()})
    laptop = seat("cut-1", {"air": aerial(), "wire": jack()}, bridges=("air", "wire"))
    (loop,) = loops(base, laptop, switch("core"), cable("C1", "cut-1/wire", "core/1"), cable("C2", "ap/lan", "core/2"))
    assert set(loop.devices) == {"ap", "cut-1", "core"}
    assert sum(link.by_radio for link in loop.links) == 1


@pytest.mark.parametrize(
    ("runs", "unprotected"),
    [
        ((True, True, True), set()),
        ((True, True, False), {"c"}),
        ((True, None, True), {"b"}),
        ((None, False, None), {"a", "b", "c"}),
    ],
)
def test_a_loop_is_protected_where_every_device_on_it_runs_a_spanning_tree(
    runs: tuple[bool | None, ...], unprotected: set[str]
) -> None:
    """IEEE 802.1D: a bridge that does not run it sends frames on, round the ring."""
    things = [switch(name, spanning_tree=each) for name, each in zip("abc", runs, strict=True)]
    (loop,) = loops(*things, *ring(*"abc"))
    assert set(loop.unprotected) == unprotected


def test_access_points_and_routers_are_not_taken_to_run_a_spanning_tree() -> None:
    box = device("c", "router", many(2, jack()))
    (loop,) = loops(switch("a", spanning_tree=True), switch("b", spanning_tree=True), box, *ring(*"abc"))
    assert loop.unprotected == ("c",)


def test_a_link_without_a_common_rate_closes_no_loop() -> None:
    lines = [cable("C1", "a/1", "b/1"), cable("C2", "a/2", "b/2")]
    odd = switch("b", {"1": jack(), "2": jack(0.01)})
    assert loops(switch("a"), odd, *lines) == ()


CARRIES = [{}, {"untagged": "media"}, {"untagged": "office"}, {"untagged": "office", "tagged": ("media",)}]


@st.composite
def meshes(draw: st.DrawFn) -> Plan:
    """Switches joined at random, each cable in networks of its own; some cables go back to their switch."""
    names = [f"s{number}" for number in range(draw(st.integers(1, 8)))]
    ports: dict[str, dict[str, Port]] = {name: {} for name in names}
    cables = []
    for number in range(draw(st.integers(0, 16))):
        ends = [draw(st.sampled_from(names)), draw(st.sampled_from(names))]
        keys = draw(st.sampled_from(CARRIES))
        refs = []
        for end in ends:
            refs.append(f"{end}/{len(ports[end])}")
            ports[end][str(len(ports[end]))] = jack(**keys)
        cables.append(cable(f"C{number}", *refs))
    return wired(MEDIA, OFFICE, *(switch(name, own) for name, own in ports.items()), *cables)


def mesh_of(plan: Plan, name: str) -> nx.MultiGraph[str]:
    """The switches of a plan with the cables that carry a network."""
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    graph.add_nodes_from(plan.devices)
    for each in plan.cables.values():
        near, (far,) = each.from_port, each.to_ports
        port = plan.devices[near.device].ports[near.port]
        if port.carries_any or name == port.untagged or name in port.tagged:
            graph.add_edge(near.device, far.device, each.name)
    return graph


@settings(max_examples=300, deadline=None)
@given(meshes())
def test_each_network_has_as_many_loops_as_its_cables_close(plan: Plan) -> None:
    """Edges less vertices plus components: the dimension of the cycle space."""
    found = build_topology(plan).loops
    for name in plan.networks:
        graph = mesh_of(plan, name)
        count = graph.number_of_edges() - graph.number_of_nodes() + nx.number_connected_components(graph)
        assert sum(name in loop.networks for loop in found) == count


@settings(max_examples=200, deadline=None)
@given(meshes())
def test_each_loop_is_one_closed_ring_of_its_network(plan: Plan) -> None:
    for loop in build_topology(plan).loops:
        lines = [link.cables[0] for link in loop.links]
        ends = Counter(end.device for line in lines for end in plan.cables[line].ends)
        assert set(ends) == set(loop.devices)
        assert len(lines) == len(set(lines)) == len(loop.devices)
        assert set(ends.values()) == {2}
        for name in loop.networks:
            graph = mesh_of(plan, str(name)).edge_subgraph(
                [(plan.cables[line].from_port.device, plan.cables[line].to_ports[0].device, line) for line in lines]
            )
            assert nx.is_connected(graph)
            assert graph.number_of_edges() == len(lines)


def test_a_ring_of_three_thousand_switches_is_one_loop() -> None:
    names = [f"s{number}" for number in range(3000)]
    switches: list[Switch] = [switch(name, many(2, jack())) for name in names]
    (loop,) = loops(*switches, *ring(*names))
    assert len(loop.devices) == len(loop.links) == 3000


# Meshes


def test_loops_that_share_a_link_are_one_mesh_and_others_are_not() -> None:
    lines = [
        cable("ab", "a/1", "b/1"), cable("bc", "b/2", "c/1"), cable("ca", "c/2", "a/2"),
        cable("cd", "c/3", "d/1"), cable("da", "d/2", "a/3"),
        cable("de", "d/3", "e/1"), cable("ed", "e/2", "d/4"), cable("ee", "e/3", "e/4"),
    ]  # fmt: skip
    found = {
        frozenset(link.cables[0] for link in loop.links): loop.mesh for loop in loops(*map(switch, "abcde"), *lines)
    }
    assert sorted(found.values()) == [0, 0, 1, 2]
    assert found[frozenset({"ab", "bc", "ca"})] == found[frozenset({"cd", "da", "ca"})]
    assert found[frozenset({"de", "ed"})] != found[frozenset({"ee"})]


@settings(max_examples=200, deadline=None)
@given(meshes())
def test_the_meshes_of_a_plan_without_networks_are_the_blocks_of_its_cables(plan: Plan) -> None:
    """networkx, biconnected components; two nodes in the middle of each cable keep parallel ones apart."""
    bare = wired(*(switch(name, {str(n): jack() for n in range(40)}) for name in plan.devices), *plan.cables.values())
    graph: nx.Graph[str] = nx.Graph()
    for each in bare.cables.values():
        nx.add_path(graph, [each.from_port.device, f"{each.name} near", f"{each.name} far", each.to_ports[0].device])
    blocks = (list(block) for block in nx.biconnected_component_edges(graph))
    expected = {
        frozenset(node.split()[0] for edge in block for node in edge if " " in node)
        for block in blocks
        if len(block) > 1
    }
    found: dict[int, set[str]] = {}
    for loop in build_topology(bare).loops:
        found.setdefault(loop.mesh, set()).update(link.cables[0] for link in loop.links)
    assert {frozenset(block) for block in found.values()} == expected
    assert sorted(found) == list(range(len(found)))


# Large meshes


def test_thousands_of_networks_over_the_same_links_are_told_with_each_loop() -> None:
    names = [f"n{number}" for number in range(2000)]
    trunk = jack(tagged=tuple(names))
    boxes = [switch(name, many(1000, trunk)) for name in "ab"]
    lines = [cable(f"C{number}", f"a/{number}", f"b/{number}") for number in range(1, 1001)]
    found = loops(*map(network, names), *boxes, *lines)
    assert len(found) == 999
    assert {loop.networks for loop in found} == {tuple(names)}
    assert {len(loop.links) for loop in found} == {2}
    assert {loop.mesh for loop in found} == {0}


@pytest.mark.parametrize("own", ["1", "2", "3"])
def test_a_link_of_one_network_beside_shared_ones_is_a_loop_of_that_network_alone(own: str) -> None:
    nets = [network(name) for name in ("x", "y", "z")]
    ports = {name: jack(untagged="y") if name == own else jack() for name in "123"}
    shared = [f"C{name}" for name in "123" if name != own]
    lines = [cable(f"C{number}", f"a/{number}", f"b/{number}") for number in (1, 2, 3)]
    found = {
        frozenset(link.cables[0] for link in loop.links): loop.networks
        for loop in loops(*nets, switch("a", ports), switch("b", ports), *lines)
    }
    assert found == {frozenset(shared): ("x", "y", "z"), frozenset({shared[0], f"C{own}"}): ("y",)}
