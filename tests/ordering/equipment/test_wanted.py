"""Wanted switches: all that the plan asks of a switch that is not chosen yet."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import cable, jack, network, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Bond, Rack, RackPosition
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.wanted import Wanted, wanted_switches

LINE = cable("C1", "cut-1/wire", "core/1")


def all_of(*things: Any, **fields: Any) -> dict[str, Wanted]:
    plan = wired(*things, **fields)
    return {wanted.switch.name: wanted for wanted in wanted_switches(plan, build_topology(plan))}


def only(*things: Any, **fields: Any) -> Wanted:
    (wanted,) = all_of(*things, **fields).values()
    return wanted


def apart(*things: Any) -> list[str]:
    return [each.name for each in only(*things).told_apart]


def new(ports: Any = 8, **fields: Any) -> Any:
    return switch("core", ports, owned=False, **fields)


def test_only_a_switch_that_is_not_owned_is_wanted() -> None:
    things = (switch("a"), switch("b", owned=True), seat("cut-1", owned=False), new(), switch("d", owned=False))

    assert ["core", "d"] == list(all_of(*things))
    assert () == wanted_switches(wired(switch("a")), topology_of(switch("a")))


def test_the_packet_is_the_largest_of_hosts_and_networks_or_else_of_its_own_ports() -> None:
    def octets(own: int | None, host: int | None, planned: int | None) -> int | None:
        far = seat("cut-1", {"wire": jack(untagged="media", mtu=host)})
        return only(network("media", mtu=planned), far, new({"1": jack(mtu=own), "2": jack()}), LINE).packet_octets

    assert [9000, 9216, 9216] == [octets(9216, 9000, 9000), octets(9000, 9216, 9000), octets(9000, 9000, 9216)]
    assert [9216, 9000, 8000] == [octets(9216, None, None), octets(None, 9000, None), octets(None, None, 8000)]
    assert octets(None, None, None) is None


def test_the_packet_of_any_own_port_and_of_its_bonds_counts() -> None:
    assert 9216 == only(seat("cut-1"), new({"1": jack(mtu=1500), "2": jack(mtu=9216)}), LINE).packet_octets
    assert 9100 == only(seat("cut-1"), new(bonds={"b": Bond(("3", "4"), mtu=9100)}), LINE).packet_octets


def test_the_packet_of_hosts_that_name_no_network_counts_also_where_a_plan_has_networks() -> None:
    assert 9000 == only(network("media"), seat("cut-1", {"wire": jack(mtu=9000)}), new(), LINE).packet_octets


def test_bonds_of_its_own_and_bonds_that_end_at_it_are_counted_once() -> None:
    core = new(bonds={"both": Bond(("1", "2"))})
    pair = {"1": jack(), "2": jack()}
    stores = (vault("one", pair, bonds={"b": Bond(("1", "2"))}), vault("two", pair, bonds={"b": Bond(("1", "2"))}))
    lines = [
        cable(f"{name}{n}", f"{name}/{n}", f"core/{at}")
        for name, n, at in (("one", 1, 1), ("one", 2, 2), ("two", 1, 3), ("two", 2, 4))
    ]
    assert 2 == only(core, *stores, *lines).bonds
    third = vault("three", pair, bonds={"b": Bond(("1", "2"))})
    more = (cable("X1", "three/1", "core/5"), cable("X2", "three/2", "core/6"))
    assert 3 == only(core, *stores, third, *lines, *more).bonds


def test_networks_are_told_apart_where_several_cross_it() -> None:
    media, office = network("media"), network("office")
    seats = (seat("cut-1", {"wire": jack(untagged="media")}), seat("cut-2", {"wire": jack(untagged="office")}))
    core = new({"1": jack(untagged="media"), "2": jack(untagged="office")})
    both = (LINE, cable("C2", "cut-2/wire", "core/2"))

    assert ["office", "media"] == apart(office, media, *seats, core, *both)
    assert [] == apart(office, media, *seats, core, LINE)


def test_a_network_that_reaches_it_with_tags_is_told_apart_with_or_without_a_number() -> None:
    for media in (network("media"), network("media", vlan=20)):
        trunk = seat("cut-1", {"wire": jack(tagged=("media",))})
        assert ["media"] == apart(
            media, network("office"), trunk, new({"1": jack(tagged=("media",)), "2": jack()}), LINE
        )
    uplink = new({"1": jack(), "2": jack(tagged=("media",))})
    assert ["media"] == apart(network("media"), seat("cut-1"), uplink, LINE)
    assert frozenset({"media"}) == only(network("media"), uplink).tagged


def test_a_spanning_tree_is_asked_for_by_a_ring_or_by_the_plan() -> None:
    lines = [
        cable(f"{a}{b}", f"{a}/{m}", f"{b}/{n}")
        for a, m, b, n in (("a", 1, "b", 1), ("b", 2, "c", 1), ("c", 2, "a", 2), ("a", 3, "d", 1))
    ]
    found = all_of(*(switch(name, owned=False) for name in "abcd"), *lines)
    treed = all_of(*(switch(name, owned=False, spanning_tree=True) for name in "abcd"), *lines)
    without = switch("d", owned=False, spanning_tree=False)

    ringed = {"a": True, "b": True, "c": True, "d": False}
    assert (
        ringed == {name: one.ringed for name, one in found.items()} == {name: one.tree for name, one in found.items()}
    )
    assert ringed == {name: one.ringed for name, one in treed.items()}
    assert {True} == {one.tree for one in treed.values()}
    assert not only(without).tree


def test_a_ring_whose_links_carry_different_networks_is_a_ring_as_well() -> None:
    """One tree spans all links of a bridge whatever VLANs they carry: IEEE 802.1Q clause 13, from memory."""
    office = {"3": jack(untagged="office")}
    ends = [
        switch(
            name,
            {"1": jack(untagged="media"), "2": jack(untagged="media"), **office},
            priority=4096 * n,
            spanning_tree=True,
            owned=False,
        )
        for n, name in enumerate("ab")
    ]
    found = all_of(network("media"), network("office"), *ends, cable("U1", "a/1", "b/1"), cable("U2", "a/3", "b/3"))
    assert [True, True] == [one.ringed for one in found.values()]


@pytest.mark.parametrize("fields", [{"room": "loft"}, {"rack": RackPosition("bay", 1)}])
def test_it_stands_where_the_plan_or_its_rack_says_with_the_stations_of_that_room(fields: dict[str, Any]) -> None:
    racks = {"bay": Rack("bay", room="loft")}
    seats = (seat("cut-1", room="loft"), seat("cut-2", room="hall"), seat("cut-3", room="loft"), seat("cut-4"))
    wanted = only(*seats, new(**fields), racks=racks)

    assert ("loft", ("cut-1", "cut-3")) == (wanted.room, wanted.seats)


def test_a_station_in_a_rack_is_in_the_room_of_that_rack() -> None:
    racks = {"bay": Rack("bay", room="store"), "cart": Rack("cart", room="store"), "far": Rack("far", room="hall")}
    seats = (
        seat("cut-1", rack=RackPosition("bay", 5)),
        seat("cut-2", rack=RackPosition("cart", 1)),
        seat("cut-3", rack=RackPosition("far", 1)),
        seat("cut-4", room="hall", rack=RackPosition("bay", 7)),
    )
    wanted = only(*seats, new(rack=RackPosition("bay", 1)), racks=racks)

    assert ("store", ("cut-1", "cut-2")) == (wanted.room, wanted.seats)


def test_a_switch_that_stands_nowhere_stands_with_nobody() -> None:
    for racks in ({}, {"bay": Rack("bay")}):
        wanted = only(seat("cut-1"), new(rack=RackPosition("bay", 1)), racks=racks)
        assert (None, ()) == (wanted.room, wanted.seats)
