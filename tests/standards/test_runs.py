"""What a cable needs beyond its route."""

from __future__ import annotations

import pytest

from netaudit.standards.runs import allowance_m, allowances


def test_a_panel_is_nineteen_inches_wide() -> None:
    """EIA-310-D and IEC 60297, the 482,6 mm (19 in) series; an inch is 25.4 mm. liquisearch.com/19-inch_rack"""
    width = allowances()["rack", "panel width", "any"]

    assert 482.6 == width.length_mm
    assert pytest.approx(19 * 0.0254) == allowance_m("rack", "panel width")
    assert "482.6 mm (19 in)" in (width.source.clause or "")


def test_service_loops_are_those_of_a_manual_of_cabling() -> None:
    """BICSI TDMM (1996), chapter 4, quoted by cablinginstall.com (16469021): 3 m (10 ft) at the closet, at the outlet
    1 m (3.3 ft) of fibre and 30 cm (12 in) of twisted pair, each rounded there; a foot is 0.3048 m."""
    loops_m = (
        allowance_m("rack", "service loop"),
        allowance_m("outlet", "service loop", "other"),
        allowance_m("outlet", "service loop", "twisted pair"),
    )

    assert (3.0, 1.0, 0.3) == loops_m
    assert pytest.approx((10 * 0.3048, 3.3 * 0.3048, 1 * 0.3048), rel=0.02) == loops_m


def test_what_no_document_gives_is_told_as_common_practice() -> None:
    customary = {(row.place, row.part) for row in allowances().values() if row.source.standing == "common practice"}

    assert {
        ("rack", "ceiling"),
        ("rack", "slack at a plug"),
        ("outlet", "drop"),
        ("room", "drop"),
        ("room", "slack at a plug"),
    } == customary
