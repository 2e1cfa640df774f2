"""The facts that rules share."""

from __future__ import annotations

import pytest
from rooms import plan_of, room

from netaudit.model.place import PortRef
from netaudit.rules.facts import build_facts


def test_a_link_is_found_from_either_end() -> None:
    facts = build_facts(plan_of(room()))
    one, other = PortRef("core", "9"), PortRef("vault", "fast")

    assert facts.link_between[frozenset((one, other))] is facts.link_between[frozenset((other, one))]


def test_the_planned_paths_are_those_of_each_seat_and_storage_once() -> None:
    facts = build_facts(plan_of(room()))

    assert [("cut-1", "vault")] == [(path.station, path.storage) for path in facts.planned]
    assert 10_000_000_000 == facts.station(facts.planned[0]).wants_bit_per_s


def test_a_path_that_starts_at_no_station_is_a_fault_of_ours() -> None:
    facts = build_facts(plan_of(room()))

    with pytest.raises(TypeError):
        facts.station(facts.planned[0]._replace(station="vault"))


def test_a_port_is_found_by_its_name() -> None:
    assert "sfp+" == build_facts(plan_of(room())).port(PortRef("vault", "fast")).connector


def test_the_links_of_a_port_are_found_at_both_its_ends() -> None:
    facts = build_facts(plan_of(room()))
    one, other = PortRef("core", "9"), PortRef("vault", "fast")

    assert [facts.link_between[frozenset((one, other))]] == facts.links_at[one] == facts.links_at[other]
    assert PortRef("core", "8") not in facts.links_at


def test_of_free_ports_alike_the_first_is_named_and_one_in_use_bonded_filled_or_set_apart_is_none() -> None:
    text = room().replace(
        "9-10: {connector: sfp+, rates: [10G, 1G]}",
        "9-10: {connector: sfp+, rates: [10G, 1G]}\n      11-12: {connector: sfp+, rates: [40G]}\n"
        "      13: {connector: sfp+, rates: [40G], purpose: management}\n"
        "      14: {connector: sfp+, rates: [40G], module: 10GBASE-SR}\n      15-17: {connector: sfp+, rates: [40G]}\n"
        "    bonds: {up: {ports: ['11', '12']}}",
    )
    free, core = build_facts(plan_of(text)).free, PortRef("core", "9")

    assert PortRef("core", "15") == free.like(core, (40_000_000_000,))
    assert PortRef("core", "10") == free.like(core, (1_000_000_000,))


def test_a_passive_port_has_no_free_one_beside_it() -> None:
    assert None is build_facts(plan_of(room())).free.like(PortRef("panel", "1"), (10_000_000_000,))


def test_a_free_port_suits_if_it_runs_a_rate_carries_the_networks_and_is_what_was_asked_for() -> None:
    text = room().replace(
        "9-10: {connector: sfp+, rates: [10G, 1G]}",
        "9: {connector: sfp+, rates: [10G, 1G]}\n      10: {connector: sfp+, rates: [10G], network: media}\n"
        "      11: {connector: sfp+, rates: [25G]}\n      12: {connector: sfp28, rates: [10G]}",
    )
    free, core = build_facts(plan_of(text)).free, PortRef("core", "9")

    assert PortRef("core", "12") == free.suiting(core, (10_000_000_000,), lambda port: port.connector != "rj45")
    assert PortRef("core", "11") == free.like(core, (25_000_000_000,))
    assert None is free.like(core, (10_000_000_000,))
    assert None is free.suiting(core, (), lambda _: True)


def test_ports_that_are_alike_are_asked_about_once_however_many_are_free() -> None:
    text = room().replace("9-10: {connector: sfp+, rates: [10G, 1G]}", "9-999: {connector: sfp+, rates: [10G, 1G]}")
    free, asked = build_facts(plan_of(text)).free, []

    assert None is free.suiting(PortRef("core", "9"), (10_000_000_000,), lambda port: bool(asked.append(port)))
    assert ["rj45", "sfp+"] == [port.connector for port in asked]
