"""Rooms: in which room a port or a device is."""

from __future__ import annotations

from netaudit.model.place import PortRef
from netaudit.model.plan import Device, Plan


def room_of(plan: Plan, port: PortRef) -> str | None:
    """The room in which a port is, be it that of its rack; None where the plan does not say."""
    return room_of_device(plan, plan.devices[port.device])


def room_of_device(plan: Plan, device: Device) -> str | None:
    """The room in which a device is, be it that of its rack; None where the plan does not say."""
    rack = None if device.rack is None else plan.racks.get(device.rack.rack)
    return device.room or (None if rack is None else rack.room)
