"""The standard rack."""

from __future__ import annotations

from netaudit.standards.racks import RACK_UNIT, RACK_UNIT_MM


def test_a_rack_unit_is_an_inch_and_three_quarters_and_three_holes_high() -> None:
    """EIA-310 and IEC 60297 as restated: 1.75 in, holes 15.875 mm, 15.875 mm and 12.7 mm apart; an inch is 25.4 mm."""
    assert round(1.75 * 25.4, 2) == RACK_UNIT_MM
    assert round(15.875 + 15.875 + 12.7, 2) == RACK_UNIT_MM
    assert "44.45 mm" in (RACK_UNIT.clause or "")
