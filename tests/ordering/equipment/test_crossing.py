"""What crosses each bridge: networks, and the largest packet of their hosts."""

from __future__ import annotations

from typing import Any

from wiring import cable, device, jack, network, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Bond
from netaudit.ordering.equipment.crossing import Crossing, crossings


def crossing(*things: Any) -> dict[str, Crossing]:
    return dict(crossings(wired(*things), topology_of(*things)))


def media_seat(name: str = "cut-1", mtu: int | None = 9000) -> Any:
    return seat(name, {"wire": jack(untagged="media", mtu=mtu)})


def test_a_network_crosses_every_switch_on_the_way_between_its_hosts() -> None:
    found = crossing(
        network("media"), media_seat(), switch("a"), switch("b"), vault(ports={"fast": jack(untagged="media", mtu=1500)}),
        cable("C1", "cut-1/wire", "a/1"), cable("U1", "a/2", "b/2"), cable("C2", "b/1", "vault/fast"),
    )  # fmt: skip
    assert {"a": Crossing(("media",), 9000), "b": Crossing(("media",), 9000)} == found


def test_networks_are_told_in_file_order_and_only_where_something_names_them() -> None:
    ports = {"1": jack(untagged="media"), "2": jack(untagged="office")}
    found = crossing(
        network("guests", mtu=9216), network("media"), network("office"), media_seat(mtu=4000),
        seat("cut-2", {"wire": jack(1, untagged="office", mtu=1500)}), switch("a", ports),
        cable("C2", "cut-2/wire", "a/2"), cable("C1", "cut-1/wire", "a/1"),
    )  # fmt: skip
    assert {"a": Crossing(("media", "office"), 4000)} == found


def test_the_packet_planned_for_a_network_counts_like_that_of_a_host() -> None:
    found = crossing(network("media", mtu=9000), media_seat(mtu=None), switch("a"), cable("C1", "cut-1/wire", "a/1"))
    assert {"a": Crossing(("media",), 9000)} == found


def test_what_a_switch_could_pass_is_not_what_its_hosts_send() -> None:
    ports = {"1": jack(untagged="media", mtu=9216)}
    found = crossing(network("media"), media_seat(), switch("a", ports), cable("C1", "cut-1/wire", "a/1"))
    assert 9000 == found["a"].packet_octets


def test_a_bonded_port_sends_the_packets_of_its_bond() -> None:
    store = vault(ports={"1": jack(), "2": jack()}, bonds={"both": Bond(("1", "2"), untagged="media", mtu=8000)})
    found = crossing(network("media"), store, switch("a"), cable("C1", "vault/1", "a/1"), cable("C2", "vault/2", "a/2"))
    assert {"a": Crossing(("media",), 8000)} == found


def test_without_networks_in_the_plan_everything_is_one() -> None:
    found = crossing(seat("cut-1", {"wire": jack(mtu=9000)}), switch("a"), cable("C1", "cut-1/wire", "a/1"))
    assert {"a": Crossing((), 9000)} == found


def test_hosts_that_name_no_network_send_their_packets_also_where_the_plan_has_networks() -> None:
    daisy = (switch("a"), switch("b"), cable("U1", "a/2", "b/2"))
    found = crossing(
        network("media"), seat("cut-1", {"wire": jack(mtu=9000)}), *daisy, cable("C1", "cut-1/wire", "a/1")
    )
    assert {"a": Crossing((), 9000), "b": Crossing((), 9000)} == found


def test_the_packets_of_one_network_are_not_those_of_another_on_the_same_switches() -> None:
    """media and lab share the first switch; the second carries media alone, whose hosts send small packets."""
    ports = {"1": jack(untagged="media"), "2": jack(untagged="lab"), "3": jack(untagged="media")}
    found = crossing(
        network("media"), network("lab"), media_seat(mtu=1500), seat("cut-2", {"wire": jack(untagged="lab", mtu=9000)}),
        switch("a", ports), switch("b"), switch("c"),
        cable("C1", "cut-1/wire", "a/1"), cable("C2", "cut-2/wire", "a/2"), cable("U1", "a/3", "b/1"),
        cable("U2", "b/2", "c/2"),
    )  # fmt: skip
    far = Crossing(("media",), 1500)
    assert {"a": Crossing(("media", "lab"), 9000), "b": far, "c": far} == found


def test_a_link_whose_ends_tag_differently_joins_nothing() -> None:
    ends = (switch("a", {"1": jack(tagged=("media",)), "2": jack()}), switch("b", {"1": jack(untagged="media")}))
    found = crossing(network("media"), media_seat(), *ends, cable("U1", "a/1", "b/1"), cable("C1", "cut-1/wire", "a/2"))
    assert {"a": Crossing(("media",), 9000)} == found


def test_a_link_that_carries_several_networks_carries_each_of_them() -> None:
    trunk = {"1": jack(untagged="office", tagged=("media", "lab")), "2": jack(untagged="media")}
    found = crossing(
        network("media"), network("office", mtu=1500), network("lab"), media_seat(), switch("a", trunk),
        switch("b", {"1": trunk["1"]}), cable("U1", "a/1", "b/1"), cable("C1", "cut-1/wire", "a/2"),
    )  # fmt: skip
    every = Crossing(("media", "office", "lab"), 9000)
    assert {"a": every, "b": every} == found


def test_a_packet_that_nobody_gives_is_unknown() -> None:
    assert {"a": Crossing((), None)} == crossing(seat("cut-1"), switch("a"), cable("C1", "cut-1/wire", "a/1"))


def test_a_network_that_the_far_end_does_not_carry_does_not_cross() -> None:
    found = crossing(
        network("media"), network("office"), media_seat(), switch("a"), switch("b", {"1": jack(untagged="office")}),
        cable("C1", "cut-1/wire", "a/1"), cable("U1", "a/2", "b/1"),
    )  # fmt: skip
    assert (("media", "office"), ("office",)) == (found["a"].networks, found["b"].networks)


def test_a_machine_that_forwards_is_a_host_as_well() -> None:
    daisy = device("dock", "adapter", {"1": jack(mtu=9000), "2": jack()}, bridges=("1", "2"))
    assert 9000 == crossing(daisy, switch("a"), cable("C1", "dock/1", "a/1"))["a"].packet_octets


def test_a_network_that_could_cross_and_that_nobody_there_names_does_not() -> None:
    found = crossing(
        network("media"),
        network("office"),
        media_seat(),
        switch("a"),
        switch("b"),
        cable("C1", "cut-1/wire", "a/1"),
        cable("U1", "a/2", "b/1"),
    )
    assert {"a": ("media",), "b": ("media",)} == {name: one.networks for name, one in found.items()}


def test_a_bond_names_its_own_network_and_for_its_own_ports_only() -> None:
    for bond in (Bond(("1", "2")), Bond(("2", "3"), untagged="media")):
        core = switch("a", bonds={"both": bond})
        found = crossing(network("media"), network("office"), vault(), core, cable("C1", "vault/fast", "a/1"))
        assert {"a": Crossing()} == found


def test_a_bond_of_the_switch_itself_names_its_network() -> None:
    core = switch("a", bonds={"both": Bond(("1", "2"), untagged="media")})
    assert ("media",) == crossing(network("media"), vault(), core, cable("C1", "vault/fast", "a/1"))["a"].networks
