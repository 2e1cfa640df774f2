"""Specification: what a switch that is not chosen yet has to have."""

from __future__ import annotations

from typing import Any

from wiring import G, cable, cage, jack, network, panel, rates, ref, seat, switch, topology_of, vault, wired

from netaudit.model.bill import PortNeed, Specification
from netaudit.model.plan import Bond, Port
from netaudit.ordering.specification import specifications

TREED = {"spanning_tree": True, "owned": False}


def told(*things: Any) -> tuple[Specification, ...]:
    return specifications(wired(*things), topology_of(*things))


def only(*things: Any) -> Specification:
    (specification,) = told(*things)
    return specification


def needs(*things: Any) -> list[tuple[str | None, int | None, list[str]]]:
    """Each kind of port that the one new switch needs, with its ports."""
    return [(need.connector, need.rate_bit_per_s, [str(port) for port in need.ports]) for need in only(*things).needs]


def test_only_a_switch_that_is_not_owned_has_a_specification() -> None:
    things = (
        switch("a"),
        switch("b", owned=True),
        seat("cut-1", owned=False),
        switch("c", owned=False),
        switch("d", owned=False),
    )
    assert ["c", "d"] == [specification.device for specification in told(*things)]


def test_only_ports_at_which_a_cable_ends_are_needed() -> None:
    core = switch("core", {**{str(n): jack() for n in range(1, 9)}, "9": cage()}, owned=False)
    things = (seat("cut-1"), seat("cut-2"), core, vault(ports={"fast": cage(10)}))
    lines = (
        cable("C2", "cut-2/wire", "core/5"),
        cable("C1", "cut-1/wire", "core/2"),
        cable("D1", "core/9", "vault/fast", "twinax", 1.0),
    )
    assert (
        PortNeed("rj45", 10 * G, 2, (ref("core/2"), ref("core/5"))),
        PortNeed("sfp+", 10 * G, 1, (ref("core/9"),)),
    ) == only(*things, *lines).needs


def test_the_rate_is_what_the_link_agrees_on_or_the_best_of_the_far_end_or_the_ports_own() -> None:
    core = switch("core", {"1": jack(), "2": Port("rj45"), "3": jack(), "4": Port("rj45"), "5": jack()}, owned=False)
    slow = seat("cut-1", {"wire": jack(2.5, 1)})
    lines = [
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "cut-2/wire", "core/2"), cable("C3", "core/3", "panel/1"),
        cable("C4", "core/4", "panel/2"), cable("C5", "cut-3/wire", "core/5"),
    ]  # fmt: skip
    silent = seat("cut-3", {"wire": Port("rj45")})
    assert [
        ("rj45", 2_500_000_000, ["core/1"]),
        ("rj45", 10 * G, ["core/2", "core/3", "core/5"]),
        ("rj45", None, ["core/4"]),
    ] == needs(slow, seat("cut-2"), silent, core, panel("panel"), *lines)


def test_the_trunk_of_a_breakout_runs_all_its_lanes_together() -> None:
    core = switch("core", {"q": Port("qsfp+", rates(40))}, owned=False)
    far = switch("far", {str(n): cage(10) for n in range(4)})
    assert [("qsfp+", 40 * G, ["core/q"])] == needs(
        core, far, cable("D1", "core/q", [f"far/{n}" for n in range(4)], "twinax", 1.0)
    )


def test_two_ends_without_a_common_rate_ask_for_the_rate_of_the_far_end() -> None:
    far = seat("cut-1", {"wire": jack(1)})
    assert [("rj45", G, ["core/1"])] == needs(
        switch("core", {"1": jack(10)}, owned=False), far, cable("C1", "cut-1/wire", "core/1")
    )


def test_the_packet_is_that_of_the_hosts_and_only_else_of_its_own_ports() -> None:
    core = switch("core", {"1": jack(mtu=9216)}, owned=False)
    line = cable("C1", "cut-1/wire", "core/1")
    assert 9000 == only(seat("cut-1", {"wire": jack(mtu=9000)}), core, line).packet_octets
    assert 9216 == only(seat("cut-1"), core, line).packet_octets
    assert None is only(seat("cut-1"), switch("core", owned=False), line).packet_octets


def test_bonds_of_its_own_and_bonds_that_end_at_it_are_counted_once() -> None:
    core = switch("core", bonds={"both": Bond(("1", "2"))}, owned=False)
    pair = {"1": jack(), "2": jack()}
    stores = (vault("one", pair, bonds={"b": Bond(("1", "2"))}), vault("two", pair, bonds={"b": Bond(("1", "2"))}))
    lines = [
        cable(f"{name}{n}", f"{name}/{n}", f"core/{at}")
        for name, n, at in (("one", 1, 1), ("one", 2, 2), ("two", 1, 3), ("two", 2, 4))
    ]
    assert 2 == only(core, *stores, *lines).bonds


def test_vlans_are_those_of_the_networks_that_cross_it_where_there_are_several_or_one_is_tagged() -> None:
    media, office = network("media", vlan=20), network("office", vlan=10)
    seats = (seat("cut-1", {"wire": jack(untagged="media")}), seat("cut-2", {"wire": jack(untagged="office")}))
    lines = (cable("C1", "cut-1/wire", "core/1"), cable("C2", "cut-2/wire", "core/2"))
    core = switch("core", {"1": jack(untagged="media"), "2": jack(untagged="office")}, owned=False)
    assert (10, 20) == only(media, office, *seats, core, *lines).vlans
    assert () == only(media, office, *seats, core, lines[0]).vlans
    tagged = switch("core", {"1": jack(tagged=("media",))}, owned=False)
    trunk = seat("cut-1", {"wire": jack(tagged=("media",))})
    assert (20,) == only(media, office, trunk, tagged, lines[0]).vlans


def test_a_switch_in_a_ring_has_to_run_a_spanning_tree_and_one_beside_it_has_not() -> None:
    lines = [
        cable(f"{a}{b}", f"{a}/{m}", f"{b}/{n}")
        for a, m, b, n in (("a", 1, "b", 1), ("b", 2, "c", 1), ("c", 2, "a", 2), ("a", 3, "d", 1))
    ]
    for fields in ({"owned": False}, TREED):
        found = told(*(switch(name, **fields) for name in "abcd"), *lines)
        assert {"a": True, "b": True, "c": True, "d": False} == {one.device: one.spanning_tree for one in found}


def test_the_watts_are_the_most_that_the_plan_gives() -> None:
    assert [60.0, 41.0, None] == [
        one.watts
        for one in told(
            switch("a", watts=41.0, watts_max=60.0, owned=False),
            switch("b", watts=41.0, owned=False),
            switch("c", owned=False),
        )
    ]


def test_a_ring_whose_links_carry_different_networks_asks_for_a_spanning_tree_as_well() -> None:
    """One tree spans all links of a bridge whatever VLANs they carry: IEEE 802.1Q clause 13, from memory."""
    office = {"3": jack(untagged="office")}
    ends = [
        switch(name, {"1": jack(untagged="media"), "2": jack(untagged="media"), **office}, priority=4096 * n, **TREED)
        for n, name in enumerate("ab")
    ]
    found = told(network("media"), network("office"), *ends, cable("U1", "a/1", "b/1"), cable("U2", "a/3", "b/3"))
    assert [True, True] == [one.spanning_tree for one in found]
