"""Ports of one storage in one subnet: how they are brought apart without cutting off a seat."""

from __future__ import annotations

from ipaddress import ip_address
from typing import Any

from rooms import found
from wiring import G, aerial, cable, device, jack, network, seat, switch, vault, wired

import netaudit
from netaudit.model.plan import Bond, Cable, Device, Network, Port
from netaudit.rules.addresses.crowds import crowds, step_for_equal
from netaudit.rules.facts import build_facts

EQUAL, UNEQUAL = "equal-ports-one-network", "two-ports-one-network"
MEDIA = network("media", "10.44.20.0/24")
APART = "Give each cable a network and a subnet of its own, at both ends (for example 10.44.21.0/24 for vault/b)."


def at(number: int, *gigabits: float, **fields: Any) -> Port:
    return jack(*gigabits, addresses=(ip_address(f"10.44.20.{number}"),), untagged="media", **fields)


def box(*gigabits: float, **fields: Any) -> Device:
    """A storage with ports a, b and so on, each of one rate [Gb/s], in one subnet."""
    ports = {name: at(10 + nth, rate) for nth, (name, rate) in enumerate(zip("abc", gigabits, strict=False))}
    return vault("vault", ports, **fields)


def remedy(rule: str, *things: Device | Network | Cable) -> str:
    """The remedy of the one finding of a rule."""
    (finding,) = found(netaudit.check(wired(*things)), rule)
    return finding.remedy


def desk(number: int, *gigabits: float) -> Device:
    return seat(f"cut-{number}", {"wire": at(20 + number, *gigabits)})


def test_seats_plugged_straight_into_the_storage_get_a_network_for_each_cable() -> None:
    """No switch is there to bond for, and either cable is the only one of its seat."""
    cords = cable("C01", "cut-1/wire", "vault/a"), cable("C02", "cut-2/wire", "vault/b")

    assert APART == remedy(EQUAL, MEDIA, desk(1), desk(2), box(10, 10), *cords)
    assert APART == remedy(UNEQUAL, MEDIA, desk(1), desk(2), box(10, 1), *cords)


def test_three_straight_cables_are_given_two_more_subnets_that_nobody_has() -> None:
    cords = [cable(f"C{nth}", f"cut-{nth}/wire", f"vault/{port}") for nth, port in enumerate("abc", 1)]
    taken = network("office", "10.44.21.0/25")

    told = remedy(EQUAL, MEDIA, taken, desk(1), desk(2), desk(3), box(10, 10, 10), *cords)

    assert told.endswith("(for example 10.44.22.0/24 for vault/b and 10.44.23.0/24 for vault/c).")


def test_where_no_subnet_is_given_or_enough_are_not_free_none_is_made_up() -> None:
    cords = cable("C01", "cut-1/wire", "vault/a"), cable("C02", "cut-2/wire", "vault/b")
    bare = {name: jack(untagged="media") for name in ("a", "b")}
    seats = [seat(f"cut-{nth}", {"wire": jack(untagged="media")}) for nth in (1, 2)]
    plain = "Give each cable a network and a subnet of its own, at both ends."

    assert plain == remedy(EQUAL, network("media"), *seats, vault("vault", bare), *cords)
    assert plain == remedy(EQUAL, network("media", "10.0.0.0/8"), *seats, vault("vault", bare), *cords)


def on_core(*ports: str) -> list[Cable]:
    return [cable(f"P{port}", f"vault/{port}", f"core/{nth}") for nth, port in enumerate(ports, 1)]


def test_the_port_that_a_seat_has_no_way_around_is_never_unplugged() -> None:
    straight = cable("C01", "cut-1/wire", "vault/b")
    things = MEDIA, desk(1), desk(2), switch("core"), *on_core("a"), straight, cable("C02", "cut-2/wire", "core/5")

    assert (
        "Give vault/b a network and a subnet of its own (for example 10.44.21.0/24); vault/a stays."
        == remedy(UNEQUAL, *things, box(10, 1))
    )  # fmt: skip
    assert (
        "Give each a network and a subnet of its own (for example 10.44.21.0/24 for vault/b)."
        == remedy(EQUAL, *things, box(10, 10))
    )  # fmt: skip


def test_the_port_that_is_kept_is_the_one_that_seats_need() -> None:
    lone = cable("C01", "cut-1/wire", "vault/b")

    told = remedy(EQUAL, MEDIA, desk(1), switch("core"), *on_core("a"), lone, box(10, 10))

    assert told.endswith(", or unplug all but vault/b.")


def test_a_way_by_radio_is_no_way_around_for_a_seat_with_a_wire() -> None:
    base = device("beacon", "access-point", {"air": aerial(10), "lan": jack()})
    wire = {"wire": at(21), "air": aerial(1, untagged="media")}
    cords = *on_core("a"), cable("C01", "cut-1/wire", "vault/b"), cable("U01", "beacon/lan", "core/5")

    both = remedy(UNEQUAL, MEDIA, seat("cut-1", wire), switch("core"), base, box(10, 1), *cords)
    assert both.startswith("Give vault/b a network")
    slow = [*on_core("a"), cable("U02", "vault/b", "core/6"), cords[2]]
    air = remedy(UNEQUAL, MEDIA, seat("cut-1", {"air": wire["air"]}), switch("core"), base, box(10, 1), *slow)
    assert air.startswith("Unplug vault/b, or give it a network")


def test_ports_on_two_switches_cannot_be_bonded() -> None:
    cords = *on_core("a"), cable("P2", "vault/b", "desk/1"), cable("U1", "core/8", "desk/8")
    alone = remedy(EQUAL, MEDIA, desk(1), switch("core"), switch("desk"), box(10, 10), *cords)

    assert alone.startswith("Give each a network and a subnet of its own (for example 10.44.21.0/24 for vault/b), or")


def test_ports_that_link_to_nothing_are_not_taken_for_plugged_into_seats() -> None:
    core = switch("core", {"1": jack(2.5), "2": jack(2.5)})

    told = remedy(EQUAL, MEDIA, core, box(10, 10), *on_core("a", "b"))

    assert (
        "Give each a network and a subnet of its own (for example 10.44.21.0/24 for vault/b), "
        "or unplug all but vault/a." == told
    )


def test_a_bond_beside_a_port_counts_with_all_its_members() -> None:
    ports = {"m0": jack(), "m1": jack(), "b": at(12)}
    bonds = {"pair": Bond(("m0", "m1"), "media", (ip_address("10.44.20.10"),))}
    cords = cable("C01", "cut-1/wire", "vault/m1"), *on_core("m0", "b")
    things = MEDIA, desk(1), switch("core"), vault("vault", ports, bonds=bonds), *cords

    assert remedy(EQUAL, *things).endswith(", or unplug all but vault/pair.")


def test_a_seat_on_radio_may_be_left_with_another_way_by_radio() -> None:
    ports = {"b": at(12), "m0": jack(), "m1": jack()}
    bonds = {"pair": Bond(("m0", "m1"), "media", (ip_address("10.44.20.10"),))}
    base = device("beacon", "access-point", {"air": aerial(10), "lan": jack()})
    cords = cable("C01", "cut-1/wire", "vault/m1"), *on_core("b", "m0"), cable("U01", "beacon/lan", "core/5")
    air = seat("cut-2", {"air": aerial(1, untagged="media")})

    told = remedy(EQUAL, MEDIA, desk(1), air, base, switch("core"), vault("vault", ports, bonds=bonds), *cords)

    assert told.endswith(", or unplug all but vault/pair.")


def test_a_crowd_is_settled_once_every_rate_is_known_and_rated_by_what_runs_where_that_differs() -> None:
    silent = Port(connector="rj45", untagged="media")
    slow = switch("core", {"1": jack(), "2": jack(1), "3": jack()})
    things = MEDIA, slow, vault("vault", {"a": at(10), "b": at(11), "c": silent}), *on_core("a", "b", "c")

    (crowd,) = crowds(build_facts(wired(*things)))

    assert not crowd.settled
    assert [(G, "vault/b"), (10 * G, "vault/a")] == [(rate, str(end.ref)) for rate, end in crowd.rated]


def test_crowds_are_found_once_for_all_rules() -> None:
    facts = build_facts(wired(MEDIA, switch("core"), box(10, 10), *on_core("a", "b")))

    assert crowds(facts) is crowds(facts)
    (crowd,) = crowds(facts)
    assert ("10.44.20.0/24", True) == (crowd.within, crowd.settled)
    assert step_for_equal(crowd, facts).startswith("Bond vault/a and vault/b if the switch can, ")


def test_a_port_of_unknown_rate_stands_in_no_order_of_rates() -> None:
    ports = {"a": at(10, 10), "b": at(11, 1), "c": at(12)._replace(rates=None)}
    cords = [cable(f"C{name}", f"vault/{name}", f"core/{number}") for number, name in enumerate(ports, 1)]
    core = switch("core", {**{name: jack() for name in "12"}, "3": jack()._replace(rates=None)})
    (crowd,) = crowds(build_facts(wired(MEDIA, core, vault("vault", ports), *cords)))

    assert [(G, "b"), (10 * G, "a")] == [(rate, end.ref.port) for rate, end in crowd.rated]
    assert not crowd.settled
