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
