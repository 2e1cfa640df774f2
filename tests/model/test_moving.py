"""The day of the move: what the values are made of."""

from __future__ import annotations

from netaudit.model.moving import Acceptance, SeenRate
from netaudit.model.place import PortRef


def test_no_link_and_not_tested_are_two_things() -> None:
    down = SeenRate("C01", "", seen_bit_per_s=0, initials="ao", note="", line=2)
    untested = down._replace(seen_bit_per_s=None)

    assert down != untested


def test_a_cable_without_a_link_expects_nothing() -> None:
    spare = Acceptance("W05", PortRef("plate", "3"), (PortRef("panel", "5"),), expected_bit_per_s=None, where="")

    assert None is spare.expected_bit_per_s
