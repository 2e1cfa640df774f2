"""What stands where: units, halves, and racks in file order."""

from __future__ import annotations

import pytest
from wiring import device, wired

from netaudit.model.plan import Device, Plan, Rack, RackPosition
from netaudit.rules.racks.positions import Mounted, filled_racks


def boxed(name: str, unit: int, height: int = 1, half: str | None = None, rack: str = "bay") -> Device:
    position = RackPosition(rack, unit, height, half=half)  # type: ignore[arg-type]
    return device(name, "other", {}, rack=position)


@pytest.mark.parametrize(("unit", "height", "top", "units"), [(4, 1, 4, "unit 4"), (4, 2, 5, "units 4 to 5")])
def test_units_are_counted_from_the_lowest_one(unit: int, height: int, top: int, units: str) -> None:
    box = boxed("vault", unit, height)
    mounted = Mounted(box, box.rack or RackPosition("bay", 1))

    assert (top, units, "device vault") == (mounted.top, mounted.units, str(mounted.place))


@pytest.mark.parametrize(
    ("half", "slots"),
    [
        (None, [(2, "left"), (2, "right"), (3, "left"), (3, "right")]),
        ("left", [(2, "left"), (3, "left")]),
        ("right", [(2, "right"), (3, "right")]),
    ],
)
def test_a_device_fills_both_halves_of_its_units_or_one(half: str | None, slots: list[tuple[int, str]]) -> None:
    box = boxed("core", 2, 2, half)

    assert slots == list(Mounted(box, box.rack or RackPosition("bay", 1)).slots)


def test_racks_come_in_file_order_with_what_is_in_them_and_empty_ones_not_at_all() -> None:
    plan = wired(boxed("b", 1, rack="nook"), boxed("a", 3), device("loose", "other", {}), boxed("c", 1))
    racks = {name: Rack(name) for name in ("bay", "spare", "nook")}
    found = list(filled_racks(Plan(file="room.yaml", racks=racks, devices=plan.devices)))

    assert [("rack bay", ["a", "c"]), ("rack nook", ["b"])] == [
        (str(filled.place), [mounted.device.name for mounted in filled.mounted]) for filled in found
    ]
