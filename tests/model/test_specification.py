"""What a switch has to have: ports that need not split unless somebody says so."""

from __future__ import annotations

from bills import SPECIFICATION

from netaudit.model.specification import PortNeed, Specification


def test_a_port_need_not_split_into_lanes_unless_it_is_told() -> None:
    need = PortNeed("qsfp+", 40_000_000_000, 1, ())

    assert (1, None) == (need.lanes, need.lane_bit_per_s)


def test_a_specification_has_no_notes_unless_it_is_given_some() -> None:
    assert () == Specification("core", (), None, 0, (), False, None).notes


def test_a_specification_is_a_value() -> None:
    same = SPECIFICATION._replace(notes=tuple(SPECIFICATION.notes))

    assert {SPECIFICATION} == {SPECIFICATION, same}
