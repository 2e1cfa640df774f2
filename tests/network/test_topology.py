"""The topology: order, what a protected ring leaves open, and plans far larger than a room."""

from __future__ import annotations

import tracemalloc

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import G, aerial, cable, device, jack, many, network, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Cable, Device
from netaudit.network.links import Promised
from netaudit.network.topology import Topology, build_topology

TEN = 10 * G


def test_wired_links_stand_in_the_order_of_their_near_ends_and_radio_links_after_them() -> None:
    topology = topology_of(
        seat("cut-1", {"air": aerial(), "wire": jack()}), switch("core"), vault(),
        device("ap", "access-point", {"wl": aerial(), "lan": jack()}),
        cable("C1", "vault/fast", "core/1"), cable("C2", "ap/lan", "core/2"), cable("C3", "core/3", "cut-1/wire"),
    )  # fmt: skip
    assert [(str(link.near), str(link.far)) for link in topology.links] == [
        ("cut-1/wire", "core/3"),
        ("core/1", "vault/fast"),
        ("core/2", "ap/lan"),
        ("cut-1/air", "ap/wl"),
    ]


def test_an_empty_plan_has_an_empty_topology() -> None:
    topology = topology_of()
    assert (topology.links, topology.loops, topology.paths) == ((), (), ())


# Protected rings: frames may go round either way (IEEE 802.1D: which link is blocked is up to the tree)


def ringed(*lines: Cable, protected: bool = True, names: str = "abcd") -> Topology:
    """A seat on the first switch, a storage on the second, and switches that run a spanning tree."""
    ends: list[Device | Cable] = [
        seat("cut-1"), vault(), cable("S", "cut-1/wire", "a/8"), cable("V", "vault/fast", "b/8")
    ]  # fmt: skip
    return topology_of(*ends, *(switch(name, spanning_tree=protected) for name in names), *lines)


FAST_RING = [cable("ab", "a/1", "b/1"), cable("bc", "b/2", "c/1"), cable("ca", "c/2", "a/2")]


def test_a_protected_ring_of_equal_links_is_promised_what_each_of_them_is() -> None:
    topology = ringed(*FAST_RING)
    assert set(topology.open_rates.values()) == {Promised(TEN, TEN)}
    assert topology.paths[0].promised_bit_per_s == TEN


@pytest.mark.parametrize(("protected", "settled"), [(True, False), (False, True)])
def test_across_a_protected_ring_it_is_open_who_shares_what(protected: bool, settled: bool) -> None:
    """IEEE 802.1D: the link that the tree blocks decides over which of the others each seat's frames go."""
    (path,) = ringed(*FAST_RING, protected=protected).paths
    assert path.goodput_bit_per_s is not None
    assert (path.share_bit_per_s is not None) == settled


def test_a_road_beside_a_protected_ring_has_its_share() -> None:
    (path,) = ringed(cable("ab", "a/1", "b/1"), cable("bc", "b/2", "c/1"), cable("cb", "c/2", "b/3")).paths
    assert path.share_bit_per_s == path.goodput_bit_per_s is not None


def test_a_protected_ring_with_a_slow_link_leaves_open_which_way_the_frames_go() -> None:
    slow = cable("ca", "c/2", "a/2", "5e")
    topology = ringed(*FAST_RING[:2], slow)
    (path,) = topology.paths
    assert (path.promised_bit_per_s, path.at_least_bit_per_s, path.at_most_bit_per_s) == (None, 2_500_000_000, TEN)
    assert (path.goodput_bit_per_s, path.share_bit_per_s) == (None, None)
    assert [hop.promised_bit_per_s for hop in path.hops] == [TEN, None, TEN]
    on_ring = [link for link in topology.links if link.cables[0] in ("ab", "bc", "ca")]
    assert {topology.promised(link) for link in on_ring} == {Promised(2_500_000_000, TEN)}
    off_ring = [link for link in topology.links if link not in on_ring]
    assert {topology.promised(link) for link in off_ring} == {Promised(TEN, TEN)}


def test_a_ring_that_is_not_protected_leaves_its_links_as_they_are() -> None:
    topology = ringed(*FAST_RING[:2], cable("ca", "c/2", "a/2", "5e"), protected=False)
    assert topology.open_rates == {}
    assert topology.paths[0].promised_bit_per_s == TEN


@pytest.mark.parametrize(("other", "least"), [("media", TEN), ("office", 0)])
def test_a_protected_ring_whose_links_carry_different_networks_promises_nothing(other: str, least: int) -> None:
    """What is plugged into the ring may be cut off from its own network by whichever link the tree blocks."""
    ports = {"1": jack(untagged="media"), "2": jack(untagged="media"), "3": jack(untagged=other)}
    lines = (cable("ab", "a/1", "b/1"), cable("bc", "b/2", "c/1"), cable("ca", "c/3", "a/3"))
    boxes = (switch(name, ports, spanning_tree=True) for name in "abc")
    topology = topology_of(network("media"), network("office"), *boxes, *lines)
    assert set(topology.open_rates.values()) == {Promised(least, TEN)}


def test_an_undecided_link_leaves_the_whole_ring_undecided() -> None:
    topology = ringed(*FAST_RING[:2], cable("ca", "c/2", "a/2", "unknown"))
    assert set(topology.open_rates.values()) == {Promised(0, TEN)}


def test_rings_that_share_a_link_bound_each_other_since_frames_may_go_round_both() -> None:
    """With ab and ac blocked, frames from a to b go by d and c: over the slow link of the other ring."""
    beyond = [cable("cd", "c/3", "d/1"), cable("da", "d/2", "a/3", "5e")]
    topology = ringed(*FAST_RING, *beyond)
    assert len(topology.loops) == 2
    assert set(topology.open_rates.values()) == {Promised(2_500_000_000, TEN)}
    assert topology.paths[0].promised_bit_per_s is None


def test_rings_that_share_only_a_switch_do_not_bound_each_other() -> None:
    beyond = [cable("cd", "c/3", "d/1"), cable("de", "d/2", "e/1", "5e"), cable("ec", "e/2", "c/4")]
    topology = ringed(*FAST_RING, *beyond, names="abcde")
    assert set(topology.open_rates.values()) == {Promised(TEN, TEN), Promised(2_500_000_000, TEN)}
    assert topology.paths[0].promised_bit_per_s == TEN


@pytest.mark.parametrize("slow", ["bc", "ef"])
def test_a_ring_that_joins_two_others_makes_all_three_bound_each_other(slow: str) -> None:
    lines = [
        cable(name, f"{name[0]}/{near}", f"{name[1]}/{far}", "5e" if name == slow else "6A")
        for name, (near, far) in (("ab", "11"), ("ac", "21"), ("bc", "22"), ("de", "11"), ("df", "21"), ("ef", "22"),
                                  ("ax", "31"), ("cy", "31"), ("dx", "32"), ("fy", "32"))
    ]  # fmt: skip
    topology = ringed(*lines, names="abcdefxy")
    assert len(topology.loops) == 3
    assert len(topology.open_rates) == len(lines)
    assert set(topology.open_rates.values()) == {Promised(2_500_000_000, TEN)}


@st.composite
def meshes(draw: st.DrawFn) -> list[Cable]:
    """Cables of two speeds between up to seven switches, any two joined once."""
    names = [f"s{number}" for number in range(draw(st.integers(2, 7)))]
    everyone = [(one, other) for one in names for other in names if one < other]
    joined = draw(st.lists(st.sampled_from(everyone), unique=True, max_size=12))
    return [
        cable(f"{one}-{other}", f"{one}/{other}", f"{other}/{one}", draw(st.sampled_from(["6A", "5e"])))
        for one, other in joined
    ]


@settings(max_examples=200, deadline=None)
@given(meshes())
def test_links_bound_each_other_exactly_within_a_block_of_the_mesh(lines: list[Cable]) -> None:
    """Two edges lie on a common ring if and only if they are in one biconnected component (networkx)."""
    names = [f"s{number}" for number in range(7)]
    switches = [switch(name, {other: jack() for other in names}, spanning_tree=True) for name in names]
    topology = topology_of(*switches, *lines)
    promised = {link.cables[0]: topology.promised(link) for link in topology.links}
    own = {link.cables[0]: link.promised for link in topology.links}
    graph = nx.Graph([(line.from_port.device, line.to_ports[0].device) for line in lines])
    for block in nx.biconnected_component_edges(graph):
        keys = ["-".join(sorted(edge)) for edge in block]
        least = min(own[key].least_bit_per_s for key in keys)
        most = max(own[key].most_bit_per_s or 0 for key in keys)
        assert {promised[key] for key in keys} == {Promised(least, most)}


# Large plans


def test_ten_thousand_seats_on_two_hundred_switches_share_hops_and_searches() -> None:
    media = network("media", purpose="storage")
    floors = [switch(f"floor-{number}", many(52, jack(untagged="media"))) for number in range(200)]
    core = switch("core", many(201, jack(untagged="media")))
    wire = {"wire": jack(untagged="media")}
    seats = [seat(f"cut-{number}", wire) for number in range(10_000)]
    lines = [cable(f"C{n}", f"cut-{n}/wire", f"floor-{n // 50}/{n % 50 + 1}") for n in range(10_000)]
    uplinks = [cable(f"U{n}", f"floor-{n}/52", f"core/{n + 1}") for n in range(200)]
    plan = wired(
        media, *floors, core, *seats, vault("vault", {"fast": jack(untagged="media")}),
        *lines, *uplinks, cable("V", "core/201", "vault/fast"),
    )  # fmt: skip
    tracemalloc.start()
    topology = build_topology(plan)
    peak_bytes = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert len(topology.paths) == 10_000
    assert {len(path.hops) for path in topology.paths} == {3}
    assert {path.shared_by for path in topology.paths} == {10_000}
    assert len({id(hop) for path in topology.paths for hop in path.hops}) == 10_000 + 200 + 1
    assert peak_bytes < 100e6


@pytest.mark.parametrize("protected", [True, False])
def test_every_switch_joined_to_every_other_has_as_many_loops_as_it_should(protected: bool) -> None:
    count = 40
    names = [f"s{number}" for number in range(count)]
    lines = [
        cable(f"C{one}-{other}", f"s{one}/{other}", f"s{other}/{one}")
        for one in range(count)
        for other in range(one + 1, count)
    ]
    boxes = [switch(name, {str(number): jack() for number in range(count)}, spanning_tree=protected) for name in names]
    topology = topology_of(*boxes, *lines)
    assert len(topology.loops) == len(lines) - count + 1
    assert len(topology.open_rates) == (len(lines) if protected else 0)


def test_everything_on_a_ring_is_ringed_whether_a_tree_opens_it_or_not() -> None:
    lines = [cable(f"U{number}", f"a/{number}", f"b/{number}") for number in (1, 2)]
    seat_line = cable("C1", "cut-1/wire", "a/3")

    for tree in (None, True):
        switches = [switch(name, spanning_tree=tree) for name in "ab"]
        assert {"a", "b"} == build_topology(wired(*switches, seat("cut-1"), *lines, seat_line)).ringed
    assert frozenset() == build_topology(wired(switch("a"), seat("cut-1"), seat_line)).ringed
