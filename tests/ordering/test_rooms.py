"""In which room a port is."""

from __future__ import annotations

import pytest
from wiring import ref, switch, wired

from netaudit.model.plan import Rack, RackPosition
from netaudit.ordering.rooms import room_of


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
def test_a_port_is_in_the_room_of_its_device_or_else_of_its_rack(
    room: str | None, rack: RackPosition | None, expected: str | None
) -> None:
    racks = {"bay": Rack("bay", room="boat bay"), "bare": Rack("bare")}
    assert expected == room_of(wired(switch("core", room=room, rack=rack), racks=racks), ref("core/1"))
