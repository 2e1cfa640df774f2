"""In which room a port or a device is."""

from __future__ import annotations

import pytest
from wiring import ref, switch, wired

from netaudit.model.plan import Rack, RackPosition
from netaudit.ordering.rooms import room_of, room_of_device


@pytest.mark.parametrize(
    ("room", "rack", "expected"),
    [
        ("loft", None, "loft"),
        (None, RackPosition("bay", 1), "boat bay"),
        ("loft", RackPosition("bay", 1), "loft"),
        (None, RackPosition("bare", 1), None),
        (None, None, None),
    ],
)
def test_a_device_and_its_ports_are_in_the_room_that_it_names_or_else_in_that_of_its_rack(
    room: str | None, rack: RackPosition | None, expected: str | None
) -> None:
    racks = {"bay": Rack("bay", room="boat bay"), "bare": Rack("bare")}
    core = switch("core", room=room, rack=rack)
    plan = wired(core, racks=racks)
    assert (expected, expected) == (room_of(plan, ref("core/1")), room_of_device(plan, core))
