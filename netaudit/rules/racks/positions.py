"""What stands where: the devices of each rack, the units and the half of the width that each fills."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from netaudit.model.place import Place, device_place, rack_place
from netaudit.model.plan import Device, Plan, Rack, RackPosition

LIFTING = "Heavy things go low, two people lift them, and the rack is fixed to wall or floor before it is filled."
"""The caution that goes with everything that is moved in a rack: common practice, no source."""
Slot = tuple[int, str]
"""A unit and a half of its width, as seen from the front."""


class Mounted(NamedTuple):
    """A device at its place in a rack."""

    device: Device
    position: RackPosition

    @property
    def top(self) -> int:
        """The highest unit that it fills."""
        return self.position.unit + self.position.height - 1

    @property
    def units(self) -> str:
        """The units that it fills, for a message."""
        return f"unit {self.top}" if self.position.height == 1 else f"units {self.position.unit} to {self.top}"

    @property
    def slots(self) -> Iterator[Slot]:
        """Every half unit that it fills."""
        halves = ("left", "right") if self.position.half is None else (self.position.half,)
        return ((unit, half) for unit in range(self.position.unit, self.top + 1) for half in halves)

    @property
    def place(self) -> Place:
        """The place of the device."""
        return device_place(self.device.name)


class Filled(NamedTuple):
    """A rack with what is mounted in it, in file order."""

    rack: Rack
    mounted: Sequence[Mounted]

    @property
    def place(self) -> Place:
        """The place of the rack, which a finding names first: what stands in it says nothing about its network."""
        return rack_place(self.rack.name)


def filled_racks(plan: Plan) -> Iterator[Filled]:
    """Every rack in which a device is mounted."""
    mounted: dict[str, list[Mounted]] = {name: [] for name in plan.racks}
    for device in plan.devices.values():
        if device.rack is not None:
            mounted[device.rack.rack].append(Mounted(device, device.rack))
    return (Filled(rack, mounted[name]) for name, rack in plan.racks.items() if mounted[name])
