"""The search, against networkx: every way is a shortest one, and of equal ways the first by name."""

from __future__ import annotations

from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import (
    aerial,
    cable,
    chain,
    device,
    jack,
    many,
    network,
    pairs,
    ref,
    seat,
    switch,
    topology_of,
    vault,
    wired,
)

from netaudit.model.plan import Cable, Device, Plan
from netaudit.network.search import Towards, networks_between
from netaudit.network.topology import build_topology

PORTS = 12


@st.composite
def rooms(draw: st.DrawFn) -> Plan:
    """Up to seven switches joined at random, with up to three seats and two storages somewhere on them."""
    names = [f"s{number}" for number in range(draw(st.integers(1, 7)))]
    free = {name: list(range(1, PORTS + 1)) for name in names}
    cables: list[Cable] = []

    def plug(near: str, far: str) -> None:
        cables.append(cable(f"C{len(cables)}", near, far))

    for _ in range(draw(st.integers(0, 12))):
        one, other = draw(st.sampled_from(names)), draw(st.sampled_from(names))
        if len(free[one]) > 6 and len(free[other]) > 6:
            plug(f"{one}/{free[one].pop(0)}", f"{other}/{free[other].pop(0)}")
    ends: list[Device] = [seat(f"cut-{number}") for number in range(draw(st.integers(1, 3)))]
    ends += [vault(f"vault-{number}") for number in range(draw(st.integers(1, 2)))]
    for end in ends:
        on = draw(st.sampled_from(names))
        plug(f"{end.name}/{next(iter(end.ports))}", f"{on}/{free[on].pop(0)}")
    devices = draw(st.permutations([*ends, *(switch(name, PORTS) for name in names)]))
    return wired(*devices, *draw(st.permutations(cables)))


def port_graph(plan: Plan) -> nx.Graph[object]:
    """Ports joined by cables of weight 1, and the ports of a switch by their switch at weight 0."""
    graph: nx.Graph[object] = nx.Graph()
    graph.add_nodes_from(ref(f"{name}/{port}") for name, each in plan.devices.items() for port in each.ports)
    graph.add_edges_from(((each.from_port, each.to_ports[0]) for each in plan.cables.values()), weight=1)
    inside = ((name, ref(f"{name}/{port}")) for name, each in plan.devices.items() for port in each.ports)
    graph.add_edges_from(((name, port) for name, port in inside if plan.devices[name].role == "switch"), weight=0)
    return graph


@settings(max_examples=250, deadline=None)
@given(rooms())
def test_every_path_is_as_short_as_the_shortest_in_the_graph_of_ports(plan: Plan) -> None:
    graph = port_graph(plan)
    for path in build_topology(plan).paths:
        start, goal = ref(f"{path.station}/wire"), ref(f"{path.storage}/fast")
        if not path.hops:
            assert not nx.has_path(graph, start, goal)
            continue
        assert len(path.hops) == nx.shortest_path_length(graph, start, goal, weight="weight")
        assert (path.hops[0].from_port, path.hops[-1].to_port) == (start, goal)
        for hop, onward in pairwise(path.hops):
            assert hop.to_port.device == onward.from_port.device
        for hop in path.hops:
            (line,) = hop.cables
            assert {hop.from_port, hop.to_port} == set(plan.cables[line].ends)


@settings(max_examples=60, deadline=None)
@given(rooms(), st.randoms(use_true_random=False))
def test_the_way_does_not_depend_on_the_order_in_the_file(plan: Plan, random: object) -> None:
    devices, cables = list(plan.devices.values()), list(plan.cables.values())
    random.shuffle(devices)  # type: ignore[attr-defined]
    random.shuffle(cables)  # type: ignore[attr-defined]
    one, other = build_topology(plan), build_topology(wired(*devices, *cables))
    ways = [{(path.station, path.storage, path.hops) for path in each.paths} for each in (one, other)]
    assert ways[0] == ways[1]


def test_of_equally_short_ways_the_first_by_name_of_the_next_device_is_taken() -> None:
    lines = [
        cable("C1", "cut-1/wire", "start/1"), cable("C2", "vault/fast", "goal/1"),
        *(cable(f"{name}-in", "start/" + port, f"{name}/1") for name, port in [("zeta", "2"), ("beta", "3")]),
        *(cable(f"{name}-out", f"{name}/2", "goal/" + port) for name, port in [("zeta", "2"), ("beta", "3")]),
    ]  # fmt: skip
    topology = topology_of(seat("cut-1"), vault(), *map(switch, ["start", "zeta", "beta", "goal"]), *lines)
    (path,) = topology.paths
    assert [hop.to_port.device for hop in path.hops] == ["start", "beta", "goal", "vault"]


def test_of_parallel_cables_the_first_port_by_name_is_taken() -> None:
    lines = [cable("C1", "a/2", "b/1"), cable("C2", "a/1", "b/2")]
    ends = [seat("cut-1"), vault(), cable("S", "cut-1/wire", "a/8"), cable("V", "vault/fast", "b/8")]
    (path,) = topology_of(switch("a"), switch("b"), *ends, *lines).paths
    assert path.hops[1].cables == ("C2",)


def test_a_seat_with_two_ways_out_of_one_port_takes_the_shorter_one() -> None:
    radios = [device(name, "access-point", {"wl": aerial(), "lan": jack()}) for name in ("ap-far", "ap-near")]
    core = switch("core")
    topology = topology_of(
        seat("cut-1", {"air": aerial()}), vault(), *radios, core, switch("loft"),
        cable("U1", "ap-far/lan", "loft/1"), cable("U2", "loft/2", "core/1"),
        cable("U3", "ap-near/lan", "core/2"), cable("C1", "core/3", "vault/fast"),
    )  # fmt: skip
    (path,) = topology.paths
    assert [hop.to_port.device for hop in path.hops] == ["ap-near", "core", "vault"]


def test_of_two_equal_ways_out_of_one_port_the_first_by_name_is_taken() -> None:
    radios = [device(name, "access-point", {"wl": aerial(), "lan": jack()}) for name in ("ap-2", "ap-1")]
    topology = topology_of(
        seat("cut-1", {"air": aerial()}), vault(), *radios, switch("core"),
        cable("U1", "ap-1/lan", "core/1"), cable("U2", "ap-2/lan", "core/2"), cable("C1", "core/3", "vault/fast"),
    )  # fmt: skip
    assert topology.paths[0].hops[0].to_port == ref("ap-1/wl")


def test_a_cable_that_does_not_carry_the_network_is_passed_over_for_one_that_does() -> None:
    media, office = jack(untagged="media"), jack(untagged="office")
    ends = [seat("cut-1"), vault("vault", {"fast": media})]
    lines = [cable("S", "cut-1/wire", "a/end"), cable("V", "vault/fast", "b/end")]
    topology = topology_of(
        network("media"), network("office"), *ends, *lines,
        *(switch(name, {"1": office, "2": media, "end": media}) for name in "ab"),
        cable("C1", "a/1", "b/1"), cable("C2", "a/2", "b/2"),
    )  # fmt: skip
    assert [hop.cables for hop in topology.paths[0].hops] == [("S",), ("C2",), ("V",)]


def test_a_cable_straight_to_the_target_is_shorter_than_the_way_over_a_switch() -> None:
    lines = [
        cable("C1", "cut-1/wire", "a/1"),
        cable("C2", "cut-1/wire", "vault/fast"),
        cable("C3", "vault/fast", "a/2"),
    ]
    (path,) = topology_of(seat("cut-1"), vault(), switch("a"), *lines).paths
    assert [hop.cables for hop in path.hops] == [("C2",)]


def test_a_target_that_does_not_carry_the_network_is_reached_from_nowhere() -> None:
    topology = topology_of(
        network("media"), network("office"), switch("core"), seat("cut-1"),
        vault("vault", {"fast": jack(untagged="media")}),
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "vault/fast", "core/2"),
    )  # fmt: skip
    graph = topology.forwarding
    assert Towards(graph, ref("vault/fast"), "office").from_port(ref("cut-1/wire")) is None
    assert Towards(graph, ref("vault/fast"), None).from_port(ref("cut-1/wire")) is None
    found = Towards(graph, ref("vault/fast"), "media").from_port(ref("cut-1/wire"))
    assert found is not None
    assert [edge.link.cables for edge in found] == [("C1",), ("C2",)]


def test_a_port_of_a_bridge_that_does_not_carry_the_network_is_no_target() -> None:
    core = switch("core", {"1": jack(untagged="office"), "2": jack(untagged="media")})
    topology = topology_of(
        network("media"), network("office"), core, seat("cut-1"), cable("C1", "cut-1/wire", "core/2")
    )
    assert Towards(topology.forwarding, ref("core/1"), "media").from_port(ref("cut-1/wire")) is None
    assert Towards(topology.forwarding, ref("core/2"), "media").from_port(ref("cut-1/wire")) is not None


def test_a_port_of_the_bridge_that_the_target_hangs_on_is_one_hop_away_and_one_of_its_own_none() -> None:
    topology = topology_of(switch("core"), vault(), cable("C1", "vault/fast", "core/1"))
    search = Towards(topology.forwarding, ref("vault/fast"), None)
    assert [edge.link.cables for edge in search.from_port(ref("core/5")) or ()] == [("C1",)]
    assert Towards(topology.forwarding, ref("core/1"), "media").from_port(ref("core/5")) == ()
    own = Towards(topology.forwarding, ref("core/1"), None)
    assert own.from_port(ref("core/5")) == ()
    assert own.from_port(ref("vault/fast")) is not None
    assert own.from_port(ref("vault/none")) is None


@pytest.mark.parametrize(
    ("near", "far", "expected"),
    [
        (jack(), jack(), [None, "media", "office"]),
        (jack(untagged="media"), jack(), ["media"]),
        (jack(untagged="media"), jack(untagged="office"), []),
        (jack(untagged="media", tagged=("office",)), jack(tagged=("office",)), ["office"]),
    ],
)
def test_two_ports_may_meet_over_every_network_that_both_carry(near: object, far: object, expected: list[str]) -> None:
    topology = topology_of(
        network("media"),
        network("office"),
        seat("a", {"1": near}),
        seat("b", {"1": far}),  # type: ignore[dict-item]
    )
    found = networks_between(topology.forwarding, ref("a/1"), ref("b/1"), ("media", "office"))
    assert list(found) == expected


def test_a_chain_of_three_thousand_switches_is_walked_from_end_to_end() -> None:
    names = [f"s{number:04}" for number in range(3000)]
    seats = [seat(f"cut-{number}") for number in (0, 1500, 2999)]
    drops = [cable(f"S{each.name}", f"{each.name}/wire", f"s{int(each.name[4:]):04}/3") for each in seats]
    topology = topology_of(
        *seats, *(switch(name, many(4, jack())) for name in names), vault(),
        *chain(names), *drops, cable("V", "vault/fast", "s2999/4"),
    )  # fmt: skip
    assert [len(path.hops) for path in topology.paths] == [3001, 1501, 2]
    assert topology.loops == ()
    assert pairs(topology)[0] == ("cut-0/wire", "vault/fast")
