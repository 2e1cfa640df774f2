"""How far cable runs in a rack, against hand-worked sums of published sizes.

EIA-310 and IEC 60297: a unit is 44.45 mm high, a panel 482.6 mm wide (audiorax.com/rack-rail-hole-spacing-explained,
liquisearch.com/19-inch_rack/specifications).
"""

from __future__ import annotations

from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.calculations.run_geometry import Part, below_top, down_rack, part, within_rack
from netaudit.model.devices import Device, RackPosition
from netaudit.model.plan import Rack

UNIT_CM = 4.445
WIDTH_CM = 48.26
BAY = Rack("bay", units=12, depth_m=0.6)
BARE = Rack("bay")


def device(role: str, unit: int = 1, height: int = 1, depth_m: float | None = None, **where: str) -> Device:
    position = RackPosition("bay", unit, height, **where)  # type: ignore[arg-type]
    return Device(name=f"{role} {unit}", role=role, rack=position, depth_m=depth_m)  # type: ignore[arg-type]


def named(parts: tuple[Part, ...] | None) -> dict[str, int]:
    """What the parts are called, without the numbers in their names, to their length [cm]."""
    assert parts is not None
    return {("vertical" if "unit" in one.what else one.what): one.length_cm for one in parts}


def total_cm(parts: tuple[Part, ...] | None) -> int:
    assert parts is not None
    return sum(one.length_cm for one in parts)


@pytest.mark.parametrize(
    ("length_m", "length_cm"),
    [(0.0, 0), (0.0889, 9), (0.3, 30), (1.1, 110), (2.3, 230), (31.0, 3100), (31.001, 3101), (0.2900004, 29)],
)
def test_a_part_is_rounded_up_to_the_centimetre_and_a_whole_one_stays(length_m: float, length_cm: int) -> None:
    assert length_cm == part("way", length_m).length_cm


def test_heights_go_from_middle_to_middle() -> None:
    """Unit 10 alone has its middle at 9.5 units, units 4 and 5 at 4: 5.5 x 44.45 mm = 244.475 mm; 9 are 400.05 mm."""
    parts = within_rack(BAY, device("panel", 10), device("storage", 4, 2, depth_m=0.55))

    assert parts is not None
    assert ("5.5 units", 25) == parts[0]
    assert ("9 units", 41) == (within_rack(BAY, device("panel", 10), device("switch", 1)) or ())[0]
    assert ("1 unit", 5) == (within_rack(BAY, device("panel", 3), device("switch", 2)) or ())[0]


def test_two_full_width_devices_cost_a_panel_across() -> None:
    assert ceil(WIDTH_CM) == named(within_rack(BAY, device("panel", 3), device("switch", 2)))["sideways"]


@pytest.mark.parametrize(
    ("near", "far", "quarters"),
    [("left", "left", 2), ("right", "right", 2), ("left", "right", 4), ("left", None, 3), (None, "right", 3)],
)
def test_half_wide_devices_take_the_side_that_is_nearer_to_both(near: str, far: str, quarters: int) -> None:
    """The middle of a half stands a quarter of the width from its own side, three quarters from the other."""
    parts = named(within_rack(BAY, device("switch", 1, half=near), device("panel", 2, half=far)))

    assert ceil(WIDTH_CM * quarters / 4) == parts["sideways"]


def test_halves_of_one_unit_cost_no_height() -> None:
    parts = named(within_rack(BAY, device("switch", 1, half="left"), device("panel", 1, half="right")))

    assert {"sideways": ceil(WIDTH_CM)} == parts


@pytest.mark.parametrize(
    ("near", "far", "depth_cm"),
    [
        # Both at the front: nothing.
        (device("panel", 2), device("switch", 1), 0),
        # From the front to the far face of a housing of 550 mm.
        (device("panel", 2), device("storage", 1, depth_m=0.55), 55),
        # Of a housing whose depth is not known: at most the rack's 600 mm.
        (device("panel", 2), device("storage", 1), 60),
        (device("router", 2), device("storage", 1), 60),
        (device("router", 2, depth_m=0.25), device("storage", 1), 35),
        # From front rails to rear rails.
        (device("panel", 2), device("switch", 1, mounted="rear"), 60),
        # Mounted at the rear, its ports lie 400 mm in front of the rear rails: 200 mm behind the front.
        (device("panel", 2), device("storage", 1, depth_m=0.4, mounted="rear"), 20),
        (device("panel", 2, mounted="rear"), device("storage", 1, depth_m=0.4, mounted="rear"), 40),
        (device("storage", 2, depth_m=0.55), device("station", 1, depth_m=0.45), 10),
        (device("storage", 2, depth_m=0.3), device("station", 1, depth_m=0.3, mounted="rear"), 0),
        (device("storage", 2, depth_m=0.5), device("station", 1, depth_m=0.4, mounted="rear"), 30),
    ],
)
def test_depth_is_what_lies_between_the_faces_that_carry_the_ports(near: Device, far: Device, depth_cm: int) -> None:
    assert depth_cm == named(within_rack(BAY, near, far)).get("depth", 0)
    assert depth_cm == named(within_rack(BAY, far, near)).get("depth", 0)


def test_a_rack_without_a_depth_is_no_matter_between_faces_on_one_side() -> None:
    panel = device("panel", 2)

    assert total_cm(within_rack(BARE, panel, device("switch", 1))) == ceil(UNIT_CM) + ceil(WIDTH_CM)
    assert 55 == named(within_rack(BARE, panel, device("storage", 1, depth_m=0.55)))["depth"]


def test_a_depth_that_does_not_follow_leaves_the_run_open() -> None:
    panel, rear = device("panel", 2), device("switch", 1, mounted="rear")

    assert within_rack(BARE, panel, device("storage", 1)) is None
    assert within_rack(BARE, panel, rear) is None
    assert within_rack(BARE, device("storage", 1, depth_m=0.2), rear) is None


def test_a_cable_from_a_device_to_itself_goes_to_the_side_and_back() -> None:
    """Its ports are on one face, however deep that lies."""
    storage = device("storage", 1)

    assert {"sideways": ceil(WIDTH_CM)} == named(within_rack(BARE, storage, storage))


def test_devices_of_different_racks_or_of_none_have_no_run_within_one() -> None:
    elsewhere = Device(name="core", role="switch", rack=RackPosition("attic rack", 1))

    assert within_rack(BAY, device("panel"), elsewhere) is None
    assert within_rack(BAY, elsewhere, device("panel")) is None
    assert within_rack(BAY, device("panel"), Device(name="core", role="switch")) is None


def test_the_way_down_starts_at_the_ceiling() -> None:
    """12 units are 533.4 mm high, of a ceiling of 2.5 m (common practice, no source); and the middle of unit 10 at 9.5: 2.5 x 44.45 mm = 111.125 mm; the front is 600 mm from the back.
    The middle of units 3 and 4 is at 3: 9 x 44.45 mm = 400.05 mm."""
    assert 41 == named(down_rack(BAY, device("storage", 3, 2)))["down rack bay"]
    assert {"drop to rack bay": 197, "down rack bay": 12, "sideways": ceil(WIDTH_CM / 2), "depth": 60} == named(
        down_rack(BAY, device("panel", 10))
    )


def test_the_drop_to_a_rack_is_what_its_units_leave_below_the_ceiling() -> None:
    """A small rack of 6 units, 266.7 mm, on the floor; 56 units of 44.45 mm are 2.4892 m, 57 are over 2.5 m."""
    drops = [
        named(down_rack(Rack("bay", units, 0.6), device("panel"))).get("drop to rack bay") for units in (6, 56, 57)
    ]

    assert [224, 2, None] == drops


def test_the_way_down_of_a_half_wide_device_takes_its_own_side() -> None:
    for half in ("left", "right"):
        assert ceil(WIDTH_CM / 4) == named(down_rack(BAY, device("panel", 10, half=half)))["sideways"]


@pytest.mark.parametrize(
    ("one", "depth_cm"),
    [
        (device("storage", 1, depth_m=0.45), 45),
        (device("storage", 1, depth_m=0.2), 40),
        (device("storage", 1, depth_m=0.2, mounted="rear"), 40),
        (device("storage", 1), 60),
    ],
)
def test_the_way_down_is_taken_from_front_or_back_whichever_is_farther(one: Device, depth_cm: int) -> None:
    assert depth_cm == named(down_rack(BAY, one))["depth"]


def test_a_rack_of_unknown_height_or_depth_has_no_known_way_down() -> None:
    panel = device("panel", 10)

    assert down_rack(Rack("bay", depth_m=0.6), panel) is None
    assert down_rack(Rack("bay", units=12), panel) is None


def test_what_stands_above_its_rack_has_no_way_down() -> None:
    assert down_rack(BAY, device("panel", 12)) is not None
    assert down_rack(BAY, device("panel", 13)) is None
    assert down_rack(BAY, device("panel", 12, 2)) is None
    assert down_rack(BAY, device("storage", 8, 6)) is None
    assert [True, False, True] == [below_top(rack, device("panel", 13)) for rack in (Rack("bay", 13), BAY, BARE)]
    assert below_top(BAY, Device(name="core", role="switch"))


@given(
    near=st.integers(1, 42),
    far=st.integers(1, 42),
    apart=st.integers(1, 20),
    role=st.sampled_from(["panel", "storage"]),
)
def test_units_apart_add_a_unit_each_and_the_ends_may_be_swapped(near: int, far: int, apart: int, role: str) -> None:
    low, high = sorted((near, far))
    lower = device("switch", low)
    now, then = (within_rack(BAY, lower, device(role, unit)) for unit in (high, high + apart))

    assert total_cm(now) == total_cm(within_rack(BAY, device(role, high), lower))
    assert pytest.approx(apart * UNIT_CM, abs=1) == total_cm(then) - total_cm(now)
