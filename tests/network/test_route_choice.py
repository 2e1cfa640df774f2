"""Route choice: the longest prefix, then the published rule of the system, which may leave it open."""

from __future__ import annotations

from ipaddress import ip_address
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wiring import G, aerial, cable, device, jack, network, ref, seat, switch, topology_of, wired

from netaudit.model.plan import Bond, Device, Network, Plan, Port, Station
from netaudit.network.forwarding import forwarding
from netaudit.network.route_choice import (
    Choice,
    Exit,
    automatic_metric,
    choose,
    exits,
    metric_by_hand,
)

M = G // 1000
MEDIA = network("media", "10.44.20.0/24", "10.44.20.1")
BARE = network("media")
WIDE = network("wide", "10.44.0.0/16")
DARK = network("dark", "10.44.20.0/24")
OFFICE = network("office", "192.168.44.0/24")
VAULT = ip_address("10.44.20.10")


def way_out(name: str, rate: int | None = 10 * G, kind: Any = "ethernet", of: Network | None = MEDIA) -> Exit:
    return Exit(ref(f"cut-1/{name}"), (ref(f"cut-1/{name}"),), of, kind, (rate,))


def decided(choice: Choice) -> tuple[str | None, str | None]:
    return None if choice.exit is None else choice.exit.port.port, choice.by


def chosen(station: Station, *ways_out: Exit) -> tuple[str | None, str | None]:
    return decided(choose(station, ways_out, MEDIA, VAULT))


# Longest prefix


def test_the_one_port_in_the_network_is_used_whatever_the_system() -> None:
    wire, air = way_out("wire"), way_out("air", kind="wi-fi", of=OFFICE)

    assert ("wire", "alone") == chosen(seat("cut-1"), wire, air)


def test_without_a_port_in_the_network_there_is_nothing_to_choose() -> None:
    assert Choice(None, None, ()) == choose(seat("cut-1"), [way_out("air", of=OFFICE)], MEDIA, VAULT)


def test_the_longest_prefix_wins_before_any_metric() -> None:
    """RFC 1812 section 5.2.4.3: of the routes that match, the longest match is taken first."""
    station = seat("cut-1", system="linux", metrics={"air": 1, "wire": 9})
    wire, air = way_out("wire"), way_out("air", kind="wi-fi", of=WIDE)

    choice = choose(station, [air, wire], MEDIA, VAULT)

    assert (wire, "prefix", (wire,)) == choice


def test_the_longest_of_a_networks_own_subnets_counts() -> None:
    both = MEDIA._replace(subnets=(*WIDE.subnets, *MEDIA.subnets))

    assert ("wire", "prefix") == chosen(seat("cut-1"), way_out("air", of=WIDE), way_out("wire", of=both))


def test_without_an_address_or_subnets_the_ports_of_the_network_contend_by_its_name() -> None:
    ways_out = [way_out("wire"), way_out("spare"), way_out("house", of=OFFICE)]

    assert ways_out[:2] == list(choose(seat("cut-1"), ways_out, MEDIA).among)
    bare = [each._replace(network=BARE) for each in ways_out[:2]]
    assert bare == list(choose(seat("cut-1"), [*bare, way_out("house", of=OFFICE)], BARE, VAULT).among)


def test_in_a_plan_without_networks_every_port_contends() -> None:
    ways_out = [way_out("wire", of=None), way_out("air", of=None)]

    assert ways_out == list(choose(seat("cut-1"), ways_out, None).among)


def test_a_port_that_reaches_the_network_twice_is_one_port() -> None:
    plain, tagged = way_out("wire"), way_out("wire", kind="vlan", of=DARK)

    assert (plain, "alone", (plain,)) == choose(seat("cut-1"), [plain, tagged], MEDIA, VAULT)


# macOS: configd at commit 585b7f2, Plugins/IPMonitor/ip_plugin.c, rank of a service: whether it has a router counts
# before its place in the service order, for the route to its subnet as well


def lent(name: str, of: Network | None = MEDIA) -> Exit:
    """An exit whose address the network hands out."""
    return way_out(name, of=of)._replace(leased=True)


def typed(name: str) -> Exit:
    """An exit with a fixed address in a network with a gateway: whether somebody typed that in is not known."""
    return way_out(name)


def dark(name: str) -> Exit:
    """An exit in a network that nothing leads out of."""
    return way_out(name, of=DARK)


def by_order(order: str, *ways_out: Exit) -> str | None:
    """Which exit macOS takes by a service order, told as the letters of the ports."""
    name, by = chosen(seat("cut-1", system="macos", service_order=tuple(order)), *ways_out)
    assert (None if name is None else "order") == by
    return name


def test_an_exit_has_a_router_by_its_lease_none_without_a_gateway_and_else_that_is_open() -> None:
    ways_out = lent("a"), dark("b"), lent("c", of=DARK), typed("d"), way_out("e", of=None), lent("f", of=None)

    assert [True, False, False, None, None, None] == [each.routed for each in ways_out]


@pytest.mark.parametrize("kind", [lent, dark])
def test_macos_goes_by_the_service_order_where_all_have_a_router_or_none(kind: Any) -> None:
    assert "a" == by_order("ab", kind("a"), kind("b"))
    assert "b" == by_order("ba", kind("a"), kind("b"))
    assert "c" == by_order("cab", kind("a"), kind("b"), kind("c"))


@pytest.mark.parametrize("order", ["", "a", "b", "x"])
def test_macos_does_not_decide_where_the_service_order_is_not_given_for_both(order: str) -> None:
    assert by_order(order, dark("a"), dark("b")) is None
    assert by_order(order, lent("a"), lent("b")) is None
    station = seat("cut-1", system="macos", service_order=tuple(order), metrics={"a": 1, "b": 2})
    assert (None, None) == chosen(station, dark("a"), dark("b"))


def test_macos_ranks_a_service_without_a_router_last_even_if_it_stands_first() -> None:
    assert "b" == by_order("ab", dark("a"), lent("b"))
    assert "b" == by_order("", dark("a"), lent("b"))
    assert "b" == by_order("acb", dark("a"), lent("b"), dark("c"))
    assert "c" == by_order("acb", dark("a"), lent("b"), lent("c"))


@pytest.mark.parametrize(("order", "expected"), [("ab", None), ("ba", "b"), ("", None)])
def test_a_router_that_may_not_be_typed_in_settles_nothing_but_that_it_comes_after_a_sure_one(
    order: str, expected: str | None
) -> None:
    assert expected == by_order(order, typed("a"), lent("b"))


def test_two_that_may_have_a_router_or_not_are_never_settled() -> None:
    assert by_order("ab", typed("a"), typed("b")) is None
    assert by_order("ab", way_out("a", of=None), way_out("b", of=None)) is None


def test_one_that_may_have_a_router_wins_over_those_without_where_it_also_stands_first() -> None:
    assert "a" == by_order("abc", typed("a"), dark("b"), dark("c"))
    assert by_order("bac", typed("a"), dark("b"), dark("c")) is None
    assert by_order("a", typed("a"), dark("b")) is None


@given(st.lists(st.sampled_from([lent, typed, dark]), min_size=2, max_size=5), st.randoms())
def test_macos_is_settled_only_where_every_way_of_typing_in_routers_gives_the_same_winner(
    kinds: list[Any], shuffle: Any
) -> None:
    """Each of the ways is judged by the rule as configd has it: the lowest pair of rank and place."""
    names = "abcde"[: len(kinds)]
    ways_out = [kind(name) for kind, name in zip(kinds, names, strict=True)]
    order = list(names)
    shuffle.shuffle(order)
    choices = [(True, False) if each.routed is None else (each.routed,) for each in ways_out]
    winners = {
        min(zip(routers, names, strict=True), key=lambda one: (not one[0], order.index(one[1])))[1]
        for routers in product(*choices)
    }

    assert (winners.pop() if len(winners) == 1 else None) == by_order("".join(order), *ways_out)


# Windows: Microsoft KB 299540, where the speed of Wi-Fi may or may not be halved already


@pytest.mark.parametrize(
    ("wire", "air", "winner"),
    [
        (10 * G, 866 * M, "wire"),
        (10 * G, 46_000 * M, "wire"),
        (G, 866 * M, "wire"),
        (G, 2402 * M, None),
        (G, 5765 * M, None),
        (100 * M, 2402 * M, "air"),
        (100 * M, 866 * M, None),
        (2500 * M, 5765 * M, "wire"),
    ],
)
def test_windows_decides_between_a_wire_and_wifi_only_where_both_readings_agree(
    wire: int, air: int, winner: str | None
) -> None:
    station = seat("cut-1", system="windows")

    choice = chosen(station, way_out("wire", wire), way_out("air", air, "wi-fi"))

    assert (winner, None if winner is None else "software") == choice


def test_windows_compares_two_radios_by_one_reading_at_a_time() -> None:
    fast, slow = way_out("fast", 2402 * M, "wi-fi"), way_out("slow", 866 * M, "wi-fi")

    assert ("fast", "software") == chosen(seat("cut-1", system="windows"), slow, fast)


def test_windows_counts_a_link_of_unknown_speed_as_anything_of_its_kind() -> None:
    station = seat("cut-1", system="windows")

    assert (5, 75) == automatic_metric(station, way_out("wire", None))
    assert (25, 85) == automatic_metric(station, way_out("air", None, "wi-fi"))
    assert ("wire", "software") == chosen(station, way_out("wire"), way_out("air", None, "wi-fi"))
    assert (None, None) == chosen(station, way_out("wire", G), way_out("air", None, "wi-fi"))


def test_windows_counts_a_radio_by_all_it_may_associate_with_and_a_bond_by_its_members_together() -> None:
    station = seat("cut-1", system="windows")
    air = way_out("air", kind="wi-fi")._replace(rates_bit_per_s=(2402 * M, 200 * M))

    assert (25, 45) == automatic_metric(station, air)
    assert (20, 20) == automatic_metric(station, way_out("pair", kind="bond")._replace(rates_bit_per_s=(G, G)))
    assert (25, 25) == automatic_metric(station, way_out("loop", kind="bridge")._replace(rates_bit_per_s=(G, G)))


# By hand


@pytest.mark.parametrize("system", ["windows", "linux"])
def test_the_lower_metric_by_hand_wins(system: Any) -> None:
    station = seat("cut-1", system=system, metrics={"wire": 10, "air": 9})

    assert ("air", "hand") == chosen(station, way_out("wire"), way_out("air", kind="wi-fi"))


@pytest.mark.parametrize(
    ("metrics", "expected"),
    [
        ({"wire": 14}, ("wire", "hand")),
        ({"wire": 24}, ("wire", "hand")),
        ({"wire": 25}, (None, None)),
        ({"wire": 26}, ("air", "hand")),
        ({"air": 9999}, ("wire", "hand")),
        ({"air": 15}, (None, None)),
        ({"air": 14}, ("air", "hand")),
        ({"wire": 7, "air": 7}, (None, None)),
    ],
)
def test_a_metric_by_hand_stands_against_an_automatic_one(
    metrics: dict[str, int], expected: tuple[str | None, str | None]
) -> None:
    station = seat("cut-1", system="windows", metrics=metrics)

    assert expected == chosen(station, way_out("wire"), way_out("air", 8 * G, "wi-fi"))


def test_of_three_ports_it_takes_the_winner_or_all_losers_to_be_set_by_hand() -> None:
    ways_out = way_out("a", 10 * G), way_out("b", G), way_out("c", 100 * M)

    def by(**metrics: int) -> tuple[str | None, str | None]:
        return chosen(seat("cut-1", system="windows", metrics=metrics), *ways_out)

    assert ("a", "software") == by()
    assert ("a", "software") == by(b=40)
    assert ("a", "hand") == by(b=40, c=50)
    assert ("c", "hand") == by(c=1)


def test_a_metric_may_be_given_for_a_bond_or_for_a_member_of_it() -> None:
    pair = Exit(ref("cut-1/pair"), (ref("cut-1/a"), ref("cut-1/b")), MEDIA, "bond", (G, G))

    assert 3 == metric_by_hand(seat("cut-1", metrics={"pair": 3, "a": 4}), pair)
    assert 4 == metric_by_hand(seat("cut-1", metrics={"b": 4}), pair)
    assert metric_by_hand(seat("cut-1", metrics={"c": 4}), pair) is None
    station = seat("cut-1", system="macos", service_order=("b", "wire"))
    assert ("pair", "order") == chosen(station, dark("wire"), pair._replace(network=DARK))


# Linux: NetworkManager at commit 355bc90, systemd at commit 09db850


@pytest.mark.parametrize(
    ("manager", "kinds", "winner"),
    [
        ("NetworkManager", ("ethernet", "wi-fi"), 0),
        ("networkmanager", ("wi-fi", "bridge"), 1),
        ("NetworkManager", ("vlan", "bond"), 1),
        ("NetworkManager", ("vlan", "bridge"), 0),
        ("NetworkManager", ("ethernet", "ethernet"), None),
        ("systemd-networkd", ("ethernet", "wi-fi"), None),
        ("some script", ("ethernet", "wi-fi"), None),
        (None, ("ethernet", "wi-fi"), None),
    ],
)
def test_linux_goes_by_what_manages_the_network(
    manager: str | None, kinds: tuple[str, str], winner: int | None
) -> None:
    station = seat("cut-1", system="linux", manager=manager)
    names = ("one", "two")

    expected = (None, None) if winner is None else (names[winner], "software")

    assert expected == chosen(station, *(way_out(name, kind=kind) for name, kind in zip(names, kinds, strict=True)))


def test_a_metric_by_hand_settles_nothing_beside_one_that_nobody_knows() -> None:
    ways_out = way_out("wire"), way_out("air", kind="wi-fi")

    assert (None, None) == chosen(seat("cut-1", system="linux", metrics={"wire": 0}), *ways_out)
    networkd = seat("cut-1", system="linux", manager="systemd-networkd", metrics={"wire": 1023})
    assert ("wire", "hand") == chosen(networkd, *ways_out)
    assert automatic_metric(seat("cut-1", system="linux"), ways_out[0]) is None
    assert (1024, 1024) == automatic_metric(networkd, ways_out[0])


def test_a_system_that_is_not_told_decides_nothing() -> None:
    station = seat("cut-1", service_order=("wire", "air"), metrics={"wire": 1, "air": 2}, manager="NetworkManager")

    assert (None, None) == chosen(station, way_out("wire"), way_out("air", kind="wi-fi"))
    assert automatic_metric(station, way_out("wire")) is None


# Exits


def exits_of(station: Station, *things: Device | Network | Any, networks: tuple[Network, ...] = ()) -> list[Exit]:
    plan: Plan = wired(*networks, station, *things)
    return list(exits(plan, topology_of(*networks, station, *things).forwarding, station))


def told(found: list[Exit]) -> list[tuple[str, str | None, str]]:
    return [(each.port.port, None if each.network is None else each.network.name, each.kind) for each in found]


def cabled(ports: dict[str, Port], networks: tuple[Network, ...] = (MEDIA, OFFICE), **fields: Any) -> list[Exit]:
    """The exits of a seat with each of its wired ports on a switch."""
    ends = [name for name, port in ports.items() if port.connector != "radio"]
    cables = [cable(f"C{place}", f"cut-1/{name}", f"core/{place}") for place, name in enumerate(ends, start=1)]
    base = device("beacon", "access-point", {"air": aerial(1.2)})
    return exits_of(seat("cut-1", ports, **fields), switch("core"), base, *cables, networks=networks)


def test_every_port_with_a_link_is_an_exit_into_its_network() -> None:
    found = cabled({"wire": jack(untagged="media"), "air": aerial(0.866, untagged="office")})

    assert [("wire", "media", "ethernet"), ("air", "office", "wi-fi")] == told(found)
    assert [(10 * G,), (866 * M,)] == [each.rates_bit_per_s for each in found]


def test_an_exit_is_leased_as_its_port_its_bond_or_a_member_is() -> None:
    ports = {"a": jack(leased=True), "b": jack(), "trunk": jack(leased=True, untagged="office", tagged=("media",))}

    assert [True, False, True, False] == [each.leased for each in cabled(ports)]
    for member, bond in ((jack(leased=True), Bond(("m",))), (jack(), Bond(("m",), leased=True))):
        assert [True] == [each.leased for each in cabled({"m": member}, bonds={"pair": bond})]


def test_a_port_without_a_link_is_none() -> None:
    assert [] == exits_of(seat("cut-1", {"wire": jack(untagged="media")}), networks=(MEDIA,))


def test_a_bond_is_one_exit_with_its_own_network() -> None:
    ports = {"a": jack(1), "house": jack(untagged="office"), "b": jack(1)}

    found = cabled(ports, bonds={"pair": Bond(("a", "b"), untagged="media")})

    assert [("pair", "media", "bond"), ("house", "office", "ethernet")] == told(found)
    assert (ref("cut-1/a"), ref("cut-1/b")) == found[0].members
    assert (G, G) == found[0].rates_bit_per_s


def test_bridged_ports_are_one_exit() -> None:
    ports = {"house": jack(untagged="office"), "a": jack(untagged="media"), "b": jack(untagged="media")}

    found = cabled(ports, bridges=("a", "b"))

    assert [("house", "office", "ethernet"), ("a", "media", "bridge")] == told(found)
    assert (ref("cut-1/a"), ref("cut-1/b")) == found[1].members


def test_a_port_is_an_exit_into_each_network_that_it_tags() -> None:
    found = cabled({"wire": jack(untagged="office", tagged=("media",)), "trunk": jack(tagged=("media", "office"))})

    assert [
        ("wire", "office", "ethernet"),
        ("wire", "media", "vlan"),
        ("trunk", "media", "vlan"),
        ("trunk", "office", "vlan"),
    ] == told(found)


def test_a_port_that_names_no_network_lies_where_its_address_does() -> None:
    house = ip_address("192.168.44.9")

    assert [("wire", "office", "ethernet")] == told(cabled({"wire": jack(addresses=(house,))}))
    assert [("wire", None, "ethernet")] == told(cabled({"wire": jack(addresses=(ip_address("172.16.0.1"),))}))
    bonded = cabled({"a": jack()}, bonds={"pair": Bond(("a",), addresses=(house,))})
    assert [("pair", "office", "bond")] == told(bonded)
    assert [("wire", None, "ethernet")] == told(cabled({"wire": jack()}, networks=()))


def test_exits_are_asked_of_the_graph_alone() -> None:
    station = seat("cut-1")

    assert () == exits(wired(station), forwarding(wired(station), []), station)
