"""What else to look for in a switch, in sentences."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import cable, cage, device, jack, network, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Bond, Plan, Port, Rack, RackPosition
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.specification import specifications


def notes(*things: Any, **fields: Any) -> tuple[str, ...]:
    plan: Plan = wired(*things, **fields)
    (specification,) = specifications(plan, build_topology(plan))
    return specification.notes


def about(word: str, *things: Any, **fields: Any) -> list[str]:
    return [note for note in notes(*things, **fields) if word in note]


def new(ports: Any = 1, **fields: Any) -> Any:
    return switch("core", ports, owned=False, **fields)


SEAT = (seat("cut-1"), cable("C1", "cut-1/wire", "core/1"))


def test_a_switch_that_only_joins_seats_need_not_be_managed_and_nothing_else_is_said() -> None:
    assert ("Nothing in the plan asks for a managed switch.",) == notes(*SEAT, new())


def test_bonds_rings_and_several_networks_ask_for_a_managed_switch() -> None:
    media, office = network("media", vlan=20), network("office")
    core = switch(
        "core", {"1": jack(untagged="media"), "2": jack(untagged="office")}, owned=False, bonds={"b": Bond(("1", "2"))}
    )
    seats = (seat("cut-1", {"wire": jack(untagged="media")}), seat("cut-2", {"wire": jack(untagged="office")}))
    said = notes(media, office, core, *seats, cable("C1", "cut-1/wire", "core/1"), cable("C2", "cut-2/wire", "core/2"))
    assert "It has to be a managed switch: the plan asks for 1 bond and VLANs." == said[0]
    assert (
        "media and office cross it: keep them apart by VLANs, or take a switch for each. Give office a `vlan`."
        == said[1]
    )


def test_one_untagged_network_asks_for_nothing_and_a_tagged_one_or_two_for_vlans() -> None:
    media, office = network("media", vlan=20), network("office")
    line = cable("C1", "cut-1/wire", "core/1")
    alone = (media, new({"1": jack(untagged="media")}), seat("cut-1", {"wire": jack(untagged="media")}), line)
    tagged = (media, new({"1": jack(tagged=("media",))}), seat("cut-1", {"wire": jack(tagged=("media",))}), line)
    lab = network("lab")
    both = (
        office, lab, new({"1": jack(untagged="office"), "2": jack(untagged="lab")}),
        seat("cut-1", {"wire": jack(untagged="office")}), seat("cut-2", {"wire": jack(untagged="lab")}),
        line, cable("C2", "cut-2/wire", "core/2"),
    )  # fmt: skip
    vlans = "It has to be a managed switch: the plan asks for VLANs."

    assert ("Nothing in the plan asks for a managed switch.",) == notes(*alone)
    reach = "media reaches it with tags (IEEE 802.1Q), which its ports have to be set for."
    assert (vlans, reach) == notes(*tagged)
    assert vlans == notes(*both)[0]


def test_tags_without_a_number_ask_for_a_managed_switch_and_for_the_number() -> None:
    trunk = jack(tagged=("media", "lab"))
    tagged = (new({"1": trunk}), seat("cut-1", {"wire": trunk}), SEAT[1])
    assert (
        "It has to be a managed switch: the plan asks for VLANs.",
        "media and lab cross it: keep them apart by VLANs. media and lab reach it with tags (IEEE 802.1Q), which its "
        "ports have to be set for. Give media and lab a `vlan` each.",
    ) == notes(network("media"), network("lab"), *tagged)
    one = jack(untagged="office", tagged=("lab",))
    assert (
        "office and lab cross it: keep them apart by VLANs. lab reaches it with tags (IEEE 802.1Q), which its ports have "
        "to be set for. Give office a `vlan`."
    ) == notes(network("office"), network("lab", vlan=4), new({"1": one}), seat("cut-1", {"wire": one}), SEAT[1])[1]


def test_the_kind_of_a_bond_follows_the_other_end() -> None:
    bonds = {"a": Bond(("1", "2")), "b": Bond(("3", "4"))}
    text = "LACP (IEEE 802.1AX) or static, as the other end has it."
    assert [f"Its 1 bond: {text}"] == about("LACP", *SEAT, new(4, bonds={"a": bonds["a"]}))
    assert [f"Its 2 bonds: {text}"] == about("LACP", *SEAT, new(4, bonds=bonds))
    assert [] == about("LACP", *SEAT, new(4))


def test_what_it_is_to_forward_in_all_is_told() -> None:
    assert ["Take one that forwards at least 200 Gb/s in all."] == about(
        "in all", *SEAT, new(fabric_bit_per_s=200_000_000_000)
    )


def test_a_port_with_several_tails_is_said_to_split() -> None:
    far = switch("far", {"1": cage(10), "2": cage(10)})
    trunk = cable("D1", "core/q", ["far/1", "far/2"], "twinax", 1.0)
    silent = switch("far", {"1": Port("sfp+"), "2": Port("sfp+")})
    assert ["core/q must be able to split into 10 Gb/s lanes."] == about("split", new({"q": Port("qsfp+")}), far, trunk)
    assert ["core/q must be able to split into lanes."] == about("split", new({"q": Port("qsfp+")}), silent, trunk)


def test_the_error_correction_of_25_gigabits_is_alike_at_both_ends() -> None:
    """IEEE 802.3by: cable class CA-25G-L of 5 m asks for RS-FEC; without, as 25GBASE-CR-S has it, 3 m."""
    line = cable("D1", "core/1", "vault/fast", "twinax", 1.0)
    tails = (switch("far", {"1": cage(25), "2": cage(25)}), cable("D1", "core/1", ["far/1", "far/2"], "twinax", 1.0))
    told = [
        "core/1: at 25 Gb/s both ends have to run the same error correction (IEEE 802.3by): ask whether it can be set; "
        "passive twinax of more than 3 m needs RS-FEC."
    ]
    assert told == about("correction", new({"1": Port("sfp28")}), vault(ports={"fast": cage(25)}), line)
    assert told == about("correction", new({"1": Port("qsfp28")}), *tails)
    assert [] == about("correction", new({"1": Port("sfp28")}), vault(ports={"fast": cage(10)}), line)
    assert [] == about(
        "correction", new({"1": jack(25)}), vault(ports={"fast": jack(25)}), cable("C1", "core/1", "vault/fast")
    )


def test_a_spanning_tree_in_the_plan_is_asked_for_though_there_is_no_ring() -> None:
    assert (
        "It has to be a managed switch: the plan asks for a spanning tree (`spanning_tree: true`)."
        == notes(*SEAT, new(spanning_tree=True))[0]
    )


def test_a_ring_asks_for_a_spanning_tree() -> None:
    lines = [cable("U1", "core/1", "far/1"), cable("U2", "core/2", "far/2")]
    assert (
        "It has to be a managed switch: the plan asks for a spanning tree (it stands in a ring)."
        == notes(new(4), switch("far"), *lines)[0]
    )


def test_a_large_packet_is_told_as_the_frame_that_a_data_sheet_names() -> None:
    """IEEE 802.3 clause 3.2.7: a packet of 1500 octets is a frame of 1518, or of 1522 with a tag of 802.1Q."""
    far = seat("cut-1", {"wire": jack(mtu=9000)})
    assert [
        "A packet of 9000 octets needs frames of 9018 octets, 9022 with a VLAN tag (IEEE 802.3 clause 3): hold that "
        "against the largest frame in its data sheet."
    ] == about("frames", far, new(), SEAT[1])
    assert [] == about("frames", seat("cut-1", {"wire": jack(mtu=1500)}), new(), SEAT[1])


@pytest.mark.parametrize(("gigabits", "text"), [(2.5, "2.5 Gb/s"), (5, "5 Gb/s")])
def test_a_rate_in_the_middle_has_to_be_in_the_list_of_rates(gigabits: float, text: str) -> None:
    """2.5GBASE-T and 5GBASE-T came with IEEE 802.3bz in 2016, ten years after 10GBASE-T of 802.3an."""
    assert [
        f"core/1: {text} has to be in the list of rates; many ports for twisted pair step from 10 Gb/s straight to 1 Gb/s."
    ] == about("list of rates", seat("cut-1", {"wire": jack(gigabits, 1)}), new(), SEAT[1])


def test_a_cage_that_runs_slower_than_it_is_made_for_is_asked_about() -> None:
    things = (
        switch("core", {"1": cage(10, 1)}, owned=False),
        vault(ports={"fast": cage(1)}),
        cable("D1", "core/1", "vault/fast", "OM4"),
    )
    assert ["core/1: ask whether the cage can be set to 1 Gb/s; some run one rate only."] == about(
        "can be set", *things
    )


def test_which_modules_its_cages_take_is_asked() -> None:
    things = (
        switch("core", {"1": cage()}, owned=False),
        vault(ports={"fast": cage(10)}),
        cable("D1", "core/1", "vault/fast", "twinax"),
    )
    assert [
        "Ask which modules and made-up cables its cages take (core/1): some take only those coded for them."
    ] == about("made-up", *things)


def test_modules_for_twisted_pair_are_counted_with_their_heat() -> None:
    """Up to 3 W: makers' figures; 2 W at power level III: SFF-8431, as kernel.org's sff,sfp.yaml has it."""
    core = switch(
        "core",
        {"1": cage(module="10GBASE-T"), "2": cage(module="10GBASE-T"), "3": cage(module="10GBASE-T")},
        owned=False,
    )
    things = (
        core,
        seat("cut-1"),
        seat("cut-2"),
        cable("C1", "cut-1/wire", "core/1"),
        cable("C2", "cut-2/wire", "core/2"),
    )
    assert [
        "2 10GBASE-T modules in its cages draw up to 3 W each, where a cage is made for 2 W: ask how many it bears, and "
        "leave a cage free beside each."
    ] == about("draw", *things)


def test_an_access_point_may_be_fed_over_its_cable() -> None:
    beacon = device("beacon", "access-point", {"wire": jack(1), "air": Port("radio")})
    assert ["Ask whether beacon is to be fed over the cable, and with how many watts."] == about(
        "fed", beacon, new(), cable("C1", "beacon/wire", "core/1")
    )


def test_ports_that_wait_are_told_by_kind() -> None:
    core = new({"1": jack(), "2": jack(), "3": jack(), "9": cage(), "m": jack(1, purpose="management")})
    assert ["3 more ports are planned free: 2 x rj45 10 Gb/s and 1 x sfp+ 10 Gb/s."] == about("free", *SEAT, core)
    assert ["1 more port is planned free: 1 x rj45 10 Gb/s."] == about("free", *SEAT, new(2))


def test_the_place_in_a_rack_is_told_with_its_depth() -> None:
    racks = {"bay": Rack("bay", 12, 0.6, "boat bay")}
    core = new(rack=RackPosition("bay", 8, 2))
    assert ["It has to fit into 2 units of rack bay, which is 0.6 m deep."] == about("rack", *SEAT, core, racks=racks)
    assert ["It has to fit into 2 units of rack bay."] == about("rack", *SEAT, core, racks={"bay": Rack("bay")})


@pytest.mark.parametrize("fields", [{"room": "loft"}, {"rack": RackPosition("bay", 1)}])
def test_fans_are_asked_about_only_where_somebody_sits_in_the_room(fields: dict[str, Any]) -> None:
    racks = {"bay": Rack("bay", room="loft")}
    line = cable("C1", "cut-1/wire", "core/1")
    assert ["It stands in loft with cut-1: ask how loud its fans are."] == about(
        "fans", seat("cut-1", room="loft"), new(**fields), line, racks=racks
    )
    assert [] == about("fans", seat("cut-1", room="hall"), new(**fields), line, racks=racks)
    assert [] == about("fans", seat("cut-1"), new(), line)


def test_a_plan_that_owns_its_switches_is_not_searched_for_networks() -> None:
    assert () == specifications(wired(switch("a")), topology_of(switch("a")))


def test_ports_planned_for_more_than_anything_sends_are_told_and_not_asked_for() -> None:
    far = seat("cut-1", {"wire": jack(mtu=9000)})
    told = [
        note for note in notes(new({"1": jack(mtu=9216)}), far, cable("C1", "cut-1/wire", "core/1")) if "octets" in note
    ]

    assert told[0].startswith("A packet of 9000 octets needs frames of 9018 octets")
    assert "Its ports are planned for packets of 9216 octets, more than anything that crosses it." == told[1]
