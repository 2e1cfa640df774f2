"""Forwarding: which devices pass frames on, over which links, and of which networks."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import aerial, cable, cage, device, jack, network, pairs, panel, ref, seat, switch, topology_of, vault

from netaudit.model.plan import Bond, Port, Role
from netaudit.network.forwarding import Carried, bond_of, forwarding_ports, port_mtu

MEDIA, OFFICE = network("media"), network("office")


def met(near: Port, far: Port, *, end: Port | None = None) -> bool:
    """Whether a seat in media reaches a storage in media over two switches that those two ports join."""
    there = end or jack(untagged="media")
    topology = topology_of(
        MEDIA, OFFICE,
        seat("cut-1", {"wire": there}), vault("vault", {"fast": there}),
        switch("a", {"1": jack(untagged="media"), "up": near}), switch("b", {"1": jack(untagged="media"), "up": far}),
        cable("C1", "cut-1/wire", "a/1"), cable("U1", "a/up", "b/up"), cable("C2", "b/1", "vault/fast"),
    )  # fmt: skip
    return pairs(topology) == [("cut-1/wire", "vault/fast")]


KEYLESS = jack()
UNTAGGED = jack(untagged="media")
TAGGED = jack(tagged=("media",))
BOTH = jack(untagged="office", tagged=("media",))
MIRRORED = jack(untagged="media", tagged=("office",))
OTHER = jack(untagged="office")


@pytest.mark.parametrize(
    ("near", "far", "expected"),
    [
        (KEYLESS, KEYLESS, True),
        (KEYLESS, UNTAGGED, True),
        (UNTAGGED, UNTAGGED, True),
        (TAGGED, TAGGED, True),
        (BOTH, BOTH, True),
        (BOTH, TAGGED, True),
        (MIRRORED, UNTAGGED, True),
        (TAGGED, UNTAGGED, False),
        (BOTH, MIRRORED, False),
        (TAGGED, KEYLESS, False),
        (UNTAGGED, OTHER, False),
        (OTHER, OTHER, False),
        (KEYLESS, OTHER, False),
    ],
)
def test_both_ends_of_a_link_must_carry_a_network_and_in_the_same_manner(near: Port, far: Port, expected: bool) -> None:
    """IEEE 802.1Q: a port is in a network tagged or untagged, never in both manners."""
    assert met(near, far) == expected
    assert met(far, near) == expected


def test_a_network_travels_tagged_where_the_port_says_so_and_in_no_other() -> None:
    trunk = Carried(any=False, untagged="office", tagged=frozenset({"media"}))
    assert [trunk.tags(name) for name in ("media", "office", "lab", None)] == [True, False, False, False]


def test_two_networks_on_one_switch_do_not_meet() -> None:
    core = switch("core", {"1-m": jack(untagged="media"), "1-o": jack(untagged="office")})
    things = [
        MEDIA, OFFICE, core, seat("cut-1", {"wire": jack(untagged="office")}),
        vault("vault", {"fast": jack(untagged="media")}), cable("C2", "core/1-m", "vault/fast"),
    ]  # fmt: skip
    assert pairs(topology_of(*things, cable("C1", "cut-1/wire", "core/1-o"))) == []
    assert pairs(topology_of(*things, cable("C1", "cut-1/wire", "core/1-m"))) == []


def test_a_seat_without_network_keys_is_in_the_network_of_its_switch_port() -> None:
    core = switch("core", {"1": jack(untagged="office"), "2": jack(untagged="media"), "3": jack(untagged="media")})
    ends = [MEDIA, OFFICE, core, seat("cut-1"), vault(), cable("C2", "core/2", "vault/fast")]
    assert pairs(topology_of(*ends, cable("C1", "cut-1/wire", "core/1"))) == []
    assert pairs(topology_of(*ends, cable("C1", "cut-1/wire", "core/3"))) == [("cut-1/wire", "vault/fast")]


def test_two_seats_of_different_networks_on_keyless_ports_stay_apart_for_want_of_a_common_subnet() -> None:
    ends = [seat("cut-1", {"wire": jack(untagged="office")}), vault("vault", {"fast": jack(untagged="media")})]
    lines = [cable("C1", "cut-1/wire", "core/1"), cable("C2", "core/2", "vault/fast")]
    assert pairs(topology_of(MEDIA, OFFICE, switch("core"), *ends, *lines)) == []


@pytest.mark.parametrize(
    ("role", "bridges", "expected"),
    [
        ("switch", (), ("1", "2", "3")),
        ("access-point", (), ("1", "2", "3")),
        ("router", (), ("1", "2", "3")),
        ("adapter", (), ()),
        ("other", (), ()),
        ("internet", (), ()),
        ("adapter", ("1", "3"), ("1", "3")),
    ],
)
def test_switches_access_points_and_routers_forward_between_all_ports_and_others_as_their_bridges_say(
    role: Role, bridges: tuple[str, ...], expected: tuple[str, ...]
) -> None:
    ports = {"1": jack(), "2": jack(), "3": jack()}
    assert forwarding_ports(device("x", role, ports, bridges=bridges)) == expected


def between(joiner: Any, near: str, far: str) -> list[tuple[str, str]]:
    """The paths of a seat and a storage on two switches that only one device joins."""
    topology = topology_of(
        seat("cut-1"), vault(), switch("a"), switch("b"), joiner,
        cable("C1", "cut-1/wire", "a/1"), cable("C2", "vault/fast", "b/1"),
        cable("J1", "a/2", f"{joiner.name}/{near}"), cable("J2", "b/2", f"{joiner.name}/{far}"),
    )  # fmt: skip
    return [each for each in pairs(topology) if each[0] == "cut-1/wire"]


def test_a_host_with_two_ports_in_one_network_does_not_join_two_switches() -> None:
    ports = {"1": jack(), "2": jack(), "3": jack()}
    assert between(seat("cut-2", ports, edits_from=()), "1", "2") == []
    assert between(vault("mirror", ports, purpose="backup"), "1", "2") == []
    assert between(device("dock", "adapter", ports), "1", "2") == []


def test_a_host_joins_the_ports_that_its_bridges_list_and_no_others() -> None:
    ports = {"1": jack(), "2": jack(), "3": jack()}
    bridging = seat("cut-2", ports, edits_from=(), bridges=("1", "2"))
    assert between(bridging, "1", "2") == [("cut-1/wire", "vault/fast")]
    assert between(bridging, "1", "3") == []
    assert between(device("dock", "adapter", ports, bridges=("2", "3")), "2", "3") == [("cut-1/wire", "vault/fast")]


@pytest.mark.parametrize("role", ["router", "access-point"])
def test_the_ports_of_a_home_router_or_an_access_point_work_as_a_switch(role: Role) -> None:
    box = device("box", role, {"1": jack(untagged="media"), "2": jack(untagged="media"), "3": jack(untagged="office")})
    ends = [MEDIA, OFFICE, box, seat("cut-1"), vault(), cable("C1", "cut-1/wire", "box/1")]
    assert pairs(topology_of(*ends, cable("C2", "vault/fast", "box/2"))) == [("cut-1/wire", "vault/fast")]
    assert pairs(topology_of(*ends, cable("C2", "vault/fast", "box/3"))) == []


def over_the_air(air: Port, base: Port, wired_side: Port | None = None) -> list[tuple[str, str]]:
    topology = topology_of(
        MEDIA, OFFICE, seat("cut-1", {"air": air}), vault("vault", {"fast": jack(untagged="media")}),
        device("ap", "access-point", {"wl": base, "lan": wired_side or jack(untagged="media")}),
        cable("C1", "ap/lan", "vault/fast"),
    )  # fmt: skip
    return pairs(topology)


def test_a_radio_reaches_the_wired_side_of_an_access_point_that_carries_its_network() -> None:
    reached = [("cut-1/air", "vault/fast")]
    assert over_the_air(aerial(untagged="media"), aerial(untagged="media")) == reached
    assert over_the_air(aerial(untagged="media"), aerial()) == reached
    assert over_the_air(aerial(), aerial(untagged="media")) == reached
    assert over_the_air(aerial(), aerial(), jack()) == reached
    assert over_the_air(aerial(untagged="office"), aerial(untagged="media")) == []
    assert over_the_air(aerial(untagged="media"), aerial(untagged="office")) == []


def test_a_radio_joins_any_of_the_networks_that_an_access_point_carries_since_no_tag_travels_by_air() -> None:
    base = aerial(untagged="office", tagged=("media",))
    assert over_the_air(aerial(untagged="media"), base) == [("cut-1/air", "vault/fast")]
    assert over_the_air(aerial(untagged="office"), base) == []
    assert over_the_air(aerial(untagged="media"), base, jack(untagged="office", tagged=("media",))) == []


def test_radios_of_clients_do_not_reach_each_other_without_an_access_point() -> None:
    assert topology_of(seat("cut-1", {"air": aerial()}), vault("vault", {"air": aerial()})).links == ()


def test_a_radio_joins_every_access_point_that_carries_its_network() -> None:
    bases = [device(f"ap-{number}", "access-point", {"wl": aerial(untagged=name)})
             for number, name in enumerate(["media", "office", "media"], 1)]  # fmt: skip
    topology = topology_of(MEDIA, OFFICE, seat("cut-1", {"air": aerial(untagged="media")}), *bases)
    assert [(str(link.near), str(link.far)) for link in topology.links] == [
        ("cut-1/air", "ap-1/wl"),
        ("cut-1/air", "ap-3/wl"),
    ]


def test_frames_do_not_pass_a_link_whose_ends_have_no_common_rate() -> None:
    ends = [seat("cut-1", {"wire": jack(2.5)}), vault("vault", {"fast": cage(10, 1)})]
    topology = topology_of(*ends, cable("C1", "cut-1/wire", "vault/fast"))
    assert len(topology.links) == 1
    assert pairs(topology) == []
    assert topology.forwarding.ways == {}


def test_passive_ports_carry_nothing_of_their_own() -> None:
    graph = topology_of(seat("cut-1"), panel("bay"), switch("core")).forwarding
    assert {port.device for port in graph.carried} == {"cut-1", "core"}
    assert graph.names == ("core",)
    assert graph.bridge_of == {ref(f"core/{number}"): 0 for number in range(1, 9)}


def test_the_network_of_a_bond_is_that_of_its_members() -> None:
    bonded = vault("vault", {"a": jack(), "b": jack()}, bonds={"both": Bond(ports=("a", "b"), untagged="media")})
    carried = topology_of(MEDIA, bonded).forwarding.carried
    assert carried[ref("vault/a")].untagged == "media"
    assert not carried[ref("vault/a")].any
    own = vault("vault", {"a": jack(untagged="office"), "b": jack()}, bonds={"both": Bond(ports=("b",))})
    carried = topology_of(MEDIA, OFFICE, own).forwarding.carried
    assert (carried[ref("vault/a")].untagged, carried[ref("vault/b")].any) == ("office", True)
    both = {"both": Bond(ports=("a", "b"), untagged="media")}
    odd = vault("vault", {"a": jack(untagged="office"), "b": jack()}, bonds=both)
    carried = topology_of(MEDIA, OFFICE, odd).forwarding.carried
    assert (carried[ref("vault/a")].untagged, carried[ref("vault/b")].untagged) == ("office", "media")


def test_two_members_of_two_bonds_are_one_way_and_two_plain_cables_are_two() -> None:
    bond = {"lag": Bond(ports=("1", "2"))}
    lines = [cable("C1", "a/1", "b/1"), cable("C2", "a/2", "b/2"), cable("C3", "a/3", "b/3")]
    both = topology_of(switch("a", bonds=bond), switch("b", bonds=bond), *lines)
    assert [[edge.link.cables for edge in edges] for edges in both.forwarding.edges] == [[("C1",), ("C3",)]] * 2
    one = topology_of(switch("a", bonds=bond), switch("b"), *lines)
    assert [len(edges) for edges in one.forwarding.edges] == [3, 3]


def test_bonds_to_different_devices_stay_apart() -> None:
    bond = {"lag": Bond(ports=("1", "2"))}
    fan = topology_of(
        switch("a", bonds=bond), switch("b", bonds=bond), switch("c", bonds=bond),
        cable("C1", "a/1", "b/1"), cable("C2", "a/2", "c/1"),
    )  # fmt: skip
    assert [len(edges) for edges in fan.forwarding.edges] == [2, 1, 1]


def test_a_port_belongs_to_the_first_bond_that_names_it() -> None:
    bonds = {"one": Bond(ports=("1", "2")), "two": Bond(ports=("2", "3"))}
    assert bond_of(switch("core", 4, bonds=bonds)) == {"1": "one", "2": "one", "3": "two"}
    assert bond_of(switch("core")) == {}


def test_a_bond_sets_the_packets_of_its_members_and_a_port_those_of_its_own() -> None:
    ports = {"a": jack(mtu=1500), "b": jack(mtu=4000), "c": jack()}
    bonds = {"pair": Bond(("a",), mtu=9000), "loose": Bond(("b",))}
    box = vault("vault", ports, bonds=bonds)

    assert [9000, 4000, None] == [port_mtu(box, name) for name in ports]


@pytest.mark.parametrize(
    ("near", "far", "expected"),
    [
        (KEYLESS, KEYLESS, None),
        (KEYLESS, UNTAGGED, ("media",)),
        (BOTH, BOTH, ("office", "media")),
        (BOTH, TAGGED, ("media",)),
        (BOTH, MIRRORED, ()),
        (UNTAGGED, OTHER, ()),
    ],
)
def test_the_networks_of_a_link_are_those_that_both_ends_carry_alike_or_all_where_neither_names_any(
    near: Port, far: Port, expected: tuple[str, ...] | None
) -> None:
    graph = topology_of(
        MEDIA, OFFICE, switch("a", {"up": near}), switch("b", {"up": far}), cable("U1", "a/up", "b/up")
    ).forwarding

    assert {expected} == {graph.named(edge) for edge in graph.ways[ref("a/up")]}
