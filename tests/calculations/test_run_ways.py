"""The ways of cables without a length, against sums worked out by hand.

A rack unit is 44.45 mm and a panel 482.6 mm wide (EIA-310, IEC 60297, as restated by liquisearch.com/19-inch_rack);
loops at a rack and an outlet are 3 m, 0.3 m and 1 m (BICSI TDMM 1996, chapter 4, quoted by cablinginstall.com 16469021);
0.3 m of slack at each plug in a rack, a ceiling of 2.5 m over it, a drop of 2.5 m and 1 m of slack in a room: common
practice, no source.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from racked import how, length_m

RACK_CORD = "from: bay-panel/1, to: core/1, category: 6A"
WALL = "from: loft-plate/1, to: bay-panel/1, category: 6A, via: [loft-to-bay]"


def test_a_cord_in_a_rack_goes_up_across_and_deep_with_slack_at_both_ends() -> None:
    """Units 8 and 10: 88.9 mm; 482.6 mm across; 2 x 0.3 m. To the storage in units 4 and 5: 5.5 units are 244.475 mm,
    and its ports lie 550 mm behind the panel."""
    assert "rack bay: 2 units 0.09 m, sideways 0.49 m, slack 0.6 m" == how(RACK_CORD)
    assert 1.18 == length_m(RACK_CORD)
    assert "rack bay: 5.5 units 0.25 m, sideways 0.49 m, depth 0.55 m, slack 0.6 m" == how(
        "from: bay-panel/1, to: vault/1"
    )


def test_a_run_in_the_wall_goes_down_at_both_ends_with_a_loop_at_each() -> None:
    """12 units are 533.4 mm, 1966.6 mm below the ceiling; the middle of unit 10 at 9.5: 2.5 x 44.45 mm; half a panel of
    482.6 mm; 600 mm from the back."""
    assert (
        "loft-to-bay 31 m, drop to loft-plate 2.5 m, service loop 0.3 m, "
        "drop to rack bay 1.97 m, down rack bay 0.12 m, sideways 0.25 m, depth 0.6 m, service loop 3 m" == how(WALL)
    )
    assert 39.74 == length_m(WALL)


@pytest.mark.parametrize(
    ("category", "loop_m"), [("5e", 0.3), ("8.2", 0.3), ("OM4", 1.0), ("OS2", 1.0), ("unknown", 1.0)]
)
def test_fibre_and_cable_of_unknown_kind_leave_the_longer_loop_at_an_outlet(category: str, loop_m: float) -> None:
    assert 39.74 - 0.3 + loop_m == pytest.approx(length_m(WALL.replace("6A", category)) or 0)


def test_a_plug_has_slack_where_a_cable_terminated_in_place_has_a_loop() -> None:
    assert "depth 0.6 m, slack 0.3 m" in how("from: loft-plate/1, to: core/1, via: [duct]")


def test_a_desk_has_a_drop_and_slack() -> None:
    assert how("from: cut-1/wire, to: core/1, via: [duct]").startswith("duct 12 m, drop to cut-1 2.5 m, slack 1 m, ")


def test_every_route_is_counted_as_it_is_listed() -> None:
    twice = WALL.replace("[loft-to-bay]", "[loft-to-bay, duct, duct]")

    assert how(twice).startswith("loft-to-bay 31 m, duct 12 m, duct 12 m, drop")
    assert pytest.approx(39.74 + 24) == length_m(twice)


def test_routes_go_before_the_rack_that_both_ends_share() -> None:
    assert how(f"{RACK_CORD}, via: [duct]").startswith("duct 12 m, drop to rack bay 1.97 m, down rack bay")


@pytest.mark.parametrize(
    "cable",
    [
        "from: loft-plate/1, to: bay-panel/1, category: 6A",
        "from: core/1, to: attic/1",
        "from: cut-1/wire, to: loft-plate/1",
        "from: cut-1/wire, to: adrift/wire",
        "from: adrift/wire, to: core/1, via: [duct]",
        "from: core/1, to: adrift/wire, via: [duct]",
    ],
)
def test_what_shares_neither_rack_nor_route_or_stands_nowhere_stays_unknown(cable: str) -> None:
    assert length_m(cable) is None


def test_a_rack_of_unknown_height_leaves_runs_from_outside_open_but_not_its_cords() -> None:
    assert length_m(WALL, bay="depth: 600 mm") is None
    assert 1.18 == length_m(RACK_CORD, bay="depth: 600 mm")


def test_a_breakout_is_as_long_as_its_longest_tail() -> None:
    """To unit 1: 9 units, 400.05 mm, and at most the 600 mm of the rack; to unit 8 only 2 units and no depth."""
    breakout = "from: bay-panel/1, to: [core/1, backup/1, core/2]"

    assert "longest tail, to backup/1: rack bay: 9 units 0.41 m, sideways 0.49 m, depth 0.6 m, slack 0.6 m" == how(
        breakout
    )
    assert length_m("from: bay-panel/1, to: backup/1") == length_m(breakout)


def test_a_breakout_along_routes_is_as_long_as_its_longest_tail() -> None:
    breakout = "from: core/1, to: [attic/1, cut-1/wire], via: [duct]"
    tails = [length_m(f"from: core/1, to: {end}, via: [duct]") or 0 for end in ("attic/1", "cut-1/wire")]

    assert max(tails) == length_m(breakout)
    assert min(tails) < max(tails)
    assert how(breakout).startswith("longest tail, to attic/1: duct 12 m, drop to rack bay")


def test_a_breakout_with_a_tail_of_unknown_length_stays_unknown() -> None:
    assert length_m("from: bay-panel/1, to: [core/1, cut-1/wire]") is None
    assert length_m("from: core/1, to: [cut-1/wire, adrift/wire], via: [duct]") is None


def test_a_cable_from_a_device_to_itself_has_a_length() -> None:
    assert "rack bay: sideways 0.49 m, slack 0.6 m" == how("from: backup/1, to: backup/2")


@settings(max_examples=25, deadline=None)
@given(short=st.integers(1, 99_999), more=st.integers(0, 9_999))
def test_a_longer_route_never_makes_a_shorter_cable(short: int, more: int) -> None:
    cable = WALL.replace("loft-to-bay", "duct")
    lengths = [length_m(cable, duct=f"{mm} mm") or 0 for mm in (short, short + more)]

    assert lengths[0] <= lengths[1]
    assert pytest.approx(more / 1000, abs=0.01) == lengths[1] - lengths[0]


@settings(max_examples=25, deadline=None)
@given(
    ends=st.sampled_from(
        [("bay-panel/1", "core/1"), ("vault/1", "core/1"), ("loft-plate/1", "vault/1"), ("cut-1/wire", "attic/1")]
    ),
    routes=st.lists(st.sampled_from(["duct", "loft-to-bay"]), max_size=3),
)
def test_a_cable_is_as_long_from_either_end(ends: tuple[str, str], routes: list[str]) -> None:
    one, other = ends
    via = f"via: [{', '.join(routes)}]"

    assert length_m(f"from: {one}, to: {other}, {via}") == length_m(f"from: {other}, to: {one}, {via}")
