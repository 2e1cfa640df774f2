"""Rooms: in which room a port is."""

from __future__ import annotations

from netaudit.model.place import PortRef
from netaudit.model.plan import Plan


def room_of(plan: Plan, port: PortRef) -> str | None:
    """The room in which a port is, be it that of its rack; None where the plan does not say."""
    device = plan.devices[port.device]
    rack = None if device.rack is None else plan.racks.get(device.rack.rack)
    return device.room or (None if rack is None else rack.room)
