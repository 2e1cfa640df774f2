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
