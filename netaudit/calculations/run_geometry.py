"""Geometry of a rack: how far cable runs from port to port, or from the ceiling down to a port.

Ports count as standing in the middle of their device's height and width.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import NamedTuple

from netaudit.model.devices import Device, RackPosition
from netaudit.model.plan import Rack
from netaudit.standards.racks import RACK_UNIT_MM
from netaudit.standards.runs import allowance_m
from netaudit.units import length_text, number_text

NEAR_FACED = frozenset({"panel", "outlet", "switch"})
"""Roles whose ports face the side they are mounted on; all others have theirs at the far face of the housing
(common practice, no source)."""
FROM_LEFT = {"left": 0.25, None: 0.5, "right": 0.75}
"""Half of the rack to where the middle of a device in it stands, as a share of the width [0 to 1]."""


class Part(NamedTuple):
    """A part of a run."""

    what: str
    length_cm: int
    """Length, rounded up [cm]."""

    def __str__(self) -> str:
        return f"{self.what} {length_text(self.length_cm / 100)}"


class _Face(NamedTuple):
    """How far behind the rails ports stand, as far as it is known."""

    least_m: float
    most_m: float


def part(what: str, length_m: float) -> Part:
    """A part of some length [m], rounded up to the centimetre; what lies below a micrometre is noise."""
    return Part(what, ceil(round(length_m * 100, 4)))


def within_rack(rack: Rack, near: Device, far: Device) -> tuple[Part, ...] | None:
    """The parts of a run between two devices, without slack; None unless both stand in this rack and all is known.

    It goes from one port to the side of the rack that is nearer to both, along it, and back to the other port.
    """
    depth_m = _depth_apart_m(rack, near, far)
    if near.rack is None or far.rack is None or near.rack.rack != far.rack.rack or depth_m is None:
        return None
    units = abs(_middle_units(near.rack) - _middle_units(far.rack))
    left = FROM_LEFT[near.rack.half] + FROM_LEFT[far.rack.half]
    vertical = part("1 unit" if units == 1 else f"{number_text(units)} units", _height_m(units))
    return tuple(_some(vertical, _sideways(min(left, 2 - left)), part("depth", depth_m)))


def down_rack(rack: Rack, device: Device) -> tuple[Part, ...] | None:
    """The parts of a run from the ceiling over a rack to a device in it, without slack; None where the plan gives none.

    The rack counts as standing on the floor and as high as its units. Whether the cable comes down at the front or at
    the back is not known, so that the farther counts.
    """
    face = _face(device, rack)
    position = device.rack
    if position is None or face is None or rack.units is None or rack.depth_m is None or not below_top(rack, device):
        return None
    left = FROM_LEFT[position.half]
    return tuple(
        _some(
            part(f"drop to rack {rack.name}", max(0.0, allowance_m("rack", "ceiling") - _height_m(rack.units))),
            part(f"down rack {rack.name}", _height_m(rack.units - _middle_units(position))),
            _sideways(min(left, 1 - left)),
            part("depth", max(face.most_m, rack.depth_m - face.least_m)),
        )
    )


def below_top(rack: Rack, device: Device) -> bool:
    """Whether a device stands below the top of its rack, as far as the plan says."""
    position = device.rack
    return position is None or rack.units is None or position.unit - 1 + position.height <= rack.units


def _some(*parts: Part) -> Iterator[Part]:
    """The parts that are longer than nothing."""
    return (one for one in parts if one.length_cm)


def _height_m(units: float) -> float:
    """Height of some units [m]."""
    return units * RACK_UNIT_MM / 1000


def _middle_units(position: RackPosition) -> float:
    """Height of the middle of a device above the bottom of its rack [rack units]."""
    return position.unit - 1 + position.height / 2


def _sideways(share: float) -> Part:
    """The way across a share of the width of a panel."""
    return part("sideways", share * allowance_m("rack", "panel width"))


def _depth_apart_m(rack: Rack, near: Device, far: Device) -> float | None:
    """The most that the ports of two devices may be apart from front to back [m]; None where that is open."""
    if near.name == far.name:
        return 0.0
    one, other = _face(near, rack), _face(far, rack)
    if one is None or other is None or near.rack is None or far.rack is None:
        return None
    if near.rack.mounted != far.rack.mounted:
        if rack.depth_m is None:
            return None
        other = _Face(rack.depth_m - other.most_m, rack.depth_m - other.least_m)
    return max(one.most_m - other.least_m, other.most_m - one.least_m)


def _face(device: Device, rack: Rack) -> _Face | None:
    """How far behind the rails that it is mounted on a device has its ports; None where that is open.

    A housing of unknown depth may be as deep as its rack.
    """
    if device.role in NEAR_FACED:
        return _Face(0.0, 0.0)
    if device.depth_m is not None:
        return _Face(device.depth_m, device.depth_m)
    return None if rack.depth_m is None else _Face(0.0, rack.depth_m)
