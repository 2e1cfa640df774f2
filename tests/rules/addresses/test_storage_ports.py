"""Rules about several ports of one storage."""

from __future__ import annotations

from ipaddress import ip_address, ip_network
from typing import Any

import pytest
from rooms import found, gaps, places
from wiring import G, Rates, cable, cage, jack, many, network, seat, switch, vault, wired

import netaudit
from netaudit.model.finding import Measure
from netaudit.model.plan import Bond, Cable, Device, Network, Port
from netaudit.model.report import Report
from netaudit.rules.addresses.storage_ports import (
    EQUAL_PORTS_ONE_NETWORK,
    TWO_NETWORKS_ONE_WIRE,
    TWO_PORTS_ONE_NETWORK,
)
from netaudit.rules.facts import build_facts
from netaudit.standards.internet import ANY_PORT_ANSWERS

UNEQUAL, EQUAL, WIRE = "two-ports-one-network", "equal-ports-one-network", "two-networks-one-wire"
MEDIA = network("media", "10.44.20.0/24")
OFFICE = network("office", "192.168.44.0/24")


def at(address: str | None, *gigabits: float, network: str | None = "media", **fields: Any) -> Port:
    """A jack with an address or without one."""
    addresses = () if address is None else (ip_address(address),)
    return jack(*gigabits, addresses=addresses, untagged=network, **fields)


def plugged(box: Device, *others: Device | Network | Cable, core: Device | None = None) -> Report:
    """The verdict on a storage all of whose ports are plugged into one switch, in file order."""
    cables = [cable(f"P{nth}", f"{box.name}/{port}", f"core/{nth}") for nth, port in enumerate(box.ports, start=1)]
    return netaudit.check(wired(MEDIA, OFFICE, core or switch("core"), box, *others, *cables))


def told(box: Device, *others: Device | Network) -> list[str]:
    """Which of the first two rules strike."""
    report = plugged(box, *others)
    return [rule for rule in (UNEQUAL, EQUAL) for _ in found(report, rule)]


def test_a_slow_port_beside_a_fast_one_in_one_subnet_fails() -> None:
    box = vault("vault", {"fast": at("10.44.20.10"), "slow": at("10.44.20.9", 1)})

    (finding,) = found(plugged(box), UNEQUAL)

    assert ["port vault/slow", "port vault/fast"] == places(finding)
    assert (
        "vault/slow at 1 Gb/s (125 MB/s) and vault/fast at 10 Gb/s (1250 MB/s) are in the same subnet, 10.44.20.0/24"
        == finding.message
    )
    assert (
        "Unplug vault/slow, or give it a network and a subnet of its own (for example 10.44.21.0/24); vault/fast stays."
        == finding.remedy
    )
    assert ("fail", ANY_PORT_ANSWERS) == (finding.severity, finding.source)
    assert (Measure(G, "bit/s"), Measure(10 * G, "bit/s")) == (finding.measured, finding.limit)
    assert [] == found(plugged(box), EQUAL)


def test_equal_ports_warn_and_every_one_is_named() -> None:
    (finding,) = found(plugged(vault("vault", {"left": at("10.44.20.10"), "right": at("10.44.20.9")})), EQUAL)

    assert ["port vault/left", "port vault/right"] == places(finding)
    assert (
        "vault/left and vault/right are in 10.44.20.0/24, each of 10 Gb/s (1250 MB/s): "
        "which of them a seat gets is left to chance" == finding.message
    )
    assert (
        "Bond vault/left and vault/right if the switch can, or give each a network and a subnet of its own "
        "(for example 10.44.21.0/24 for vault/right), or unplug all but vault/left." == finding.remedy
    )
    assert ("warn", ANY_PORT_ANSWERS) == (finding.severity, finding.source)


def test_of_three_ports_one_of_which_is_slow_only_the_failure_is_told() -> None:
    box = vault("vault", {"a": at("10.44.20.7"), "b": at("10.44.20.8", 1), "c": at("10.44.20.9")})

    assert [UNEQUAL] == told(box)
    (finding,) = found(plugged(box), UNEQUAL)
    assert ["port vault/b", "port vault/a", "port vault/c"] == places(finding)


def test_the_fastest_port_stays_and_the_slowest_goes() -> None:
    box = vault("vault", {"a": at("10.44.20.7"), "b": at("10.44.20.8", 2.5), "c": at("10.44.20.9", 1)})

    (finding,) = found(plugged(box), UNEQUAL)

    assert finding.remedy.startswith("Unplug vault/c, or give it a network")
    assert finding.remedy.endswith("; vault/a stays.")
    assert (Measure(G, "bit/s"), Measure(10 * G, "bit/s")) == (finding.measured, finding.limit)


def test_ports_that_run_at_unequal_rates_fail_however_alike_they_are() -> None:
    core = switch("core", {"1": jack(), "2": jack(1)})

    (finding,) = found(plugged(vault("vault", {"a": at("10.44.20.7"), "b": at("10.44.20.8")}), core=core), UNEQUAL)

    assert "vault/b at 1 Gb/s (125 MB/s) and vault/a at 10 Gb/s (1250 MB/s) are in the same subnet" in finding.message


def test_ports_of_unequal_best_rate_fail_even_where_both_now_run_the_slower_one() -> None:
    core = switch("core", many(2, jack(1)))

    (finding,) = found(plugged(vault("vault", {"a": at("10.44.20.7"), "b": at("10.44.20.8", 1)}), core=core), UNEQUAL)

    assert Measure(10 * G, "bit/s") == finding.limit


def test_the_address_decides_about_the_subnet_and_the_name_of_the_network_where_there_is_none() -> None:
    two = Network("media", (ip_network("10.44.20.0/24"), ip_network("10.44.21.0/24")))

    def of(fast: Port, slow: Port) -> list[str]:
        return told(vault("vault", {"fast": fast, "slow": slow}), two)

    assert [] == of(at("10.44.20.10"), at("10.44.21.10", 1))
    assert [UNEQUAL] == of(at("10.44.20.10"), at(None, 1))
    assert [] == of(at("10.44.21.10"), at(None, 1))
    assert [UNEQUAL] == of(at(None), at(None, 1))
    assert [UNEQUAL] == of(at("10.44.20.10"), at("10.44.20.9", 1, network=None))
    assert [] == of(at("10.44.20.10"), at("192.168.44.9", 1, network="office"))
    assert [] == of(at(None), at(None, 1, network="office"))
    assert [] == of(at("172.16.0.1", network=None), at("172.16.0.2", 1, network=None))
    assert [UNEQUAL] == of(at(None), at(None, 1, network="office", tagged=("media",)))


def test_a_network_without_a_subnet_is_told_by_its_name() -> None:
    box = vault("vault", {"fast": at(None, network="bare"), "slow": at(None, 1, network="bare")})

    (finding,) = found(plugged(box, network("bare")), UNEQUAL)

    assert finding.message.endswith("are in the same subnet, bare")


def test_ports_that_share_two_subnets_are_told_once() -> None:
    both = Network("media", (ip_network("10.44.20.0/24"), ip_network("fd00::/64")))
    ports = {
        "fast": jack(addresses=(ip_address("10.44.20.10"), ip_address("fd00::10")), untagged="media"),
        "slow": jack(1, addresses=(ip_address("10.44.20.9"), ip_address("fd00::9")), untagged="media"),
    }

    assert [UNEQUAL] == told(vault("vault", ports), both)


def test_ports_of_two_storages_are_no_matter() -> None:
    other = vault("archive", {"slow": at("10.44.20.20", 1)})

    report = plugged(vault("vault", {"fast": at("10.44.20.10")}), other, cable("P9", "archive/slow", "core/8"))

    assert [] == [*found(report, UNEQUAL), *found(report, EQUAL)]


def test_ports_without_a_cable_and_ports_for_management_are_no_matter() -> None:
    box = vault("vault", {"fast": at("10.44.20.10"), "slow": at("10.44.20.9", 1, purpose="management")})
    assert [] == told(box)
    report = netaudit.check(
        wired(
            MEDIA,
            switch("core"),
            vault("vault", {"fast": at("10.44.20.10"), "slow": at("10.44.20.9", 1)}),
            cable("P1", "vault/fast", "core/1"),
        )
    )
    assert [] == found(report, UNEQUAL)


def test_a_port_that_serves_nothing_counts_all_the_same() -> None:
    assert [UNEQUAL] == told(vault("vault", {"fast": at("10.44.20.10"), "slow": at("10.44.20.9", 1, serves=False)}))


def bonded(*others: tuple[str, Port], members: int = 2) -> Device:
    ports = {f"m{nth}": jack() for nth in range(members)}
    bonds = {"pair": Bond(tuple(ports), "media", (ip_address("10.44.20.10"),))}
    return vault("vault", {**ports, **dict(others)}, bonds=bonds)


def test_the_members_of_a_bond_count_as_one() -> None:
    assert [] == told(bonded())
    (finding,) = found(plugged(bonded(("slow", at("10.44.20.9", 1)))), UNEQUAL)
    assert ["port vault/slow", "port vault/pair", "port vault/m0", "port vault/m1"] == places(finding)
    assert "vault/pair at 10 Gb/s (1250 MB/s)" in finding.message
    assert [EQUAL] == told(bonded(("fast", at("10.44.20.9"))))


def test_a_bond_runs_as_fast_as_its_slowest_member() -> None:
    core = switch("core", {"1": jack(), "2": jack(1), "3": jack(1)})

    report = plugged(bonded(("fast", at("10.44.20.9"))), core=core)

    assert [] == found(report, UNEQUAL)
    assert "each of 10 Gb/s" in found(report, EQUAL)[0].message


def test_a_bond_that_bears_the_name_of_a_port_is_still_a_bond() -> None:
    ports = {"a": jack(untagged="office"), "b": at("10.44.20.9", 1)}

    assert [UNEQUAL] == told(vault("vault", ports, bonds={"b2": Bond(("a",), "media", (ip_address("10.44.20.8"),))}))


def cluster(nodes: dict[str, tuple[str, ...]], *gigabits: float, **fields: Any) -> Device:
    ports = {
        name: at(f"10.44.20.{10 + nth}", rate) for nth, (name, rate) in enumerate(zip("abcd", gigabits, strict=False))
    }
    return vault("vault", ports, nodes=nodes, **fields)


def test_ports_of_different_nodes_are_ports_of_different_machines() -> None:
    assert [] == told(cluster({"one": ("a",), "two": ("b",)}, 10, 1))
    assert [UNEQUAL] == told(cluster({"one": ("a", "b"), "two": ("c",)}, 10, 1, 1))
    assert [UNEQUAL, EQUAL] == told(cluster({"one": ("a", "b"), "two": ("c", "d")}, 10, 1, 1, 1))
    assert [UNEQUAL] == told(cluster({"one": ("a",)}, 10, 1))


def test_a_node_may_name_a_bond_or_a_member_of_it() -> None:
    def of(named: str) -> list[str]:
        bonds = {"pair": Bond(("a",), "media", (ip_address("10.44.20.30"),))}
        return told(cluster({"one": (named,), "two": ("b",)}, 10, 1, bonds=bonds))

    assert [] == of("pair")
    assert [] == of("a")


def test_an_unknown_rate_is_left_open_unless_the_known_ones_differ() -> None:
    silent = Port(connector="rj45", addresses=(ip_address("10.44.20.8"),), untagged="media")

    report = plugged(vault("vault", {"fast": at("10.44.20.10"), "dark": silent}))
    (gap,) = gaps(report, UNEQUAL)
    assert ["port vault/dark", "port vault/fast"] == places(gap)
    assert "The rates of vault/dark are not given" == gap.reason
    assert (
        "write down `rates` of vault/dark: beside vault/fast in 10.44.20.0/24 it must not be slower or faster"
        == gap.decides
    )
    assert [] == found(report, EQUAL)
    (finding,) = found(
        plugged(vault("vault", {"dark": silent, "fast": at("10.44.20.10"), "slow": at("10.44.20.9", 1)})), UNEQUAL
    )
    assert ["port vault/slow", "port vault/dark", "port vault/fast"] == places(finding)


def test_a_module_decides_about_the_rate_of_a_cage() -> None:
    def of(module: str | None) -> list[str]:
        other = cage(25, 10, addresses=(ip_address("10.44.20.9"),), untagged="media")
        fast = cage(25, 10, addresses=(ip_address("10.44.20.10"),), untagged="media", module=module)
        return told(vault("vault", {"fast": fast, "other": other}))

    assert [EQUAL] == of(None)
    assert [UNEQUAL] == of("10GBASE-SR")


def test_the_rate_of_a_made_up_cable_stands_in_for_ports_that_give_none() -> None:
    bare = Port(connector="sfp+", untagged="media")
    cables = [
        cable(f"D{nth}", f"vault/{port}", f"core/{nth}", "twinax", rates=Rates((rate * G,)))
        for nth, (port, rate) in enumerate((("a", 10), ("b", 1)), start=1)
    ]
    plan = wired(MEDIA, switch("core", many(2, cage(10, 1))), vault("vault", {"a": bare, "b": bare}), *cables)

    assert 1 == len(found(netaudit.check(plan), UNEQUAL))


def test_a_storage_with_one_port_is_not_asked() -> None:
    facts = build_facts(wired(MEDIA, switch("core"), vault(), cable("P1", "vault/fast", "core/1")))

    for rule in (TWO_PORTS_ONE_NETWORK, EQUAL_PORTS_ONE_NETWORK, TWO_NETWORKS_ONE_WIRE):
        assert [] == list(rule.subjects(facts))


def two_nets(**fields: Any) -> Device:
    return vault("vault", {"fast": at("10.44.20.10"), "slow": at("192.168.44.10", 1, network="office")}, **fields)


def test_two_subnets_on_one_switch_that_keeps_nothing_apart_warn() -> None:
    (finding,) = found(plugged(two_nets()), WIRE)

    assert ["port vault/fast", "port vault/slow", "device core"] == places(finding)
    assert (
        "vault/fast in 10.44.20.0/24 and vault/slow in 192.168.44.0/24 are on the same wire: core keeps no networks apart"
        == finding.message
    )
    assert finding.remedy.startswith("Plug vault/slow into another switch that is not joined to core")
    assert ("warn", ANY_PORT_ANSWERS) == (finding.severity, finding.source)


def on_two(*cables: Cable, desk: Device | None = None, box: Device | None = None) -> Report:
    """The fast port on core, the slow one on desk."""
    return netaudit.check(
        wired(
            MEDIA, OFFICE, switch("core"), desk or switch("desk"), box or two_nets(),
            cable("P1", "vault/fast", "core/1"), cable("P2", "vault/slow", "desk/1"), *cables,
        )
    )  # fmt: skip


def test_switches_that_are_joined_are_one_wire_and_those_apart_are_not() -> None:
    assert [] == found(on_two(), WIRE)
    (finding,) = found(on_two(cable("U1", "core/2", "desk/2")), WIRE)
    assert ["port vault/fast", "port vault/slow", "device core"] == places(finding)


@pytest.mark.parametrize("named", ["1", "2"])
def test_a_port_that_names_its_network_keeps_it_apart(named: str) -> None:
    ports = {port: jack(untagged="office" if port == named else None) for port in ("1", "2")}

    assert [] == found(on_two(cable("U1", "core/2", "desk/2"), desk=switch("desk", ports)), WIRE)


def test_ports_in_one_subnet_or_in_no_known_one_are_not_two_networks() -> None:
    assert [] == found(plugged(vault("vault", {"a": at("10.44.20.10"), "b": at("10.44.20.9")})), WIRE)
    assert [] == found(plugged(vault("vault", {"a": at("10.44.20.10"), "b": at(None, network=None)})), WIRE)


def test_of_several_ports_the_first_two_that_share_no_subnet_are_named() -> None:
    box = vault("vault", {"a": at("10.44.20.7"), "b": at("10.44.20.8"), "c": at("192.168.44.7", network="office")})

    (finding,) = found(plugged(box), WIRE)

    assert ["port vault/a", "port vault/c", "device core"] == places(finding)


def test_tagged_ports_ports_for_management_and_other_nodes_are_no_matter() -> None:
    def of(**slow: Any) -> Report:
        return plugged(vault("vault", {"fast": at("10.44.20.10"), "slow": at("192.168.44.10", 1, **slow)}))

    assert 1 == len(found(of(network="office"), WIRE))
    assert [] == found(of(network=None, tagged=("office",)), WIRE)
    assert [] == found(of(network="office", purpose="management"), WIRE)
    assert [] == found(plugged(two_nets(nodes={"one": ("fast",), "two": ("slow",)})), WIRE)


def test_a_bond_with_a_tagged_member_is_no_matter() -> None:
    ports = {"a": jack(), "b": jack(tagged=("office",)), "c": at("192.168.44.9", network="office")}
    bonds = {"pair": Bond(("a", "b"), "media", (ip_address("10.44.20.8"),))}

    assert [] == found(plugged(vault("vault", ports, bonds=bonds)), WIRE)


def test_a_seat_plugged_straight_into_the_storage_is_no_wire() -> None:
    plan = wired(
        MEDIA, OFFICE, seat("cut-1"), seat("cut-2"), two_nets(),
        cable("P1", "vault/fast", "cut-1/wire"), cable("P2", "vault/slow", "cut-2/wire"),
    )  # fmt: skip

    assert [] == found(netaudit.check(plan), WIRE)


def test_a_flat_room_with_an_archive_beside_the_storage_stays_silent() -> None:
    flat = network("room", "192.168.44.0/24", "192.168.44.1")
    seats = [seat(f"cut-{nth}", {"wire": at(f"192.168.44.1{nth}", network="room")}) for nth in range(1, 5)]
    cables = [cable(f"C{nth}", f"cut-{nth}/wire", f"core/{nth}", length_m=10) for nth in range(1, 5)]
    plan = wired(
        flat, switch("core"), *seats, vault("vault", {"fast": at("192.168.44.20", network="room")}),
        vault("shelf", {"lan": at("192.168.44.21", 1, network="room")}, purpose="archive"),
        *cables, cable("P1", "vault/fast", "core/5"), cable("P2", "shelf/lan", "core/6"),
    )  # fmt: skip

    report = netaudit.check(plan)

    assert [] == [finding.rule for finding in report.findings if finding.severity != "note"]
    assert [] == list(report.not_checked)
