"""The way of a cable that has no length of its own: along routes, or from device to device within a rack."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from netaudit.calculations.run_geometry import Part, down_rack, part, within_rack
from netaudit.model.plan import COPPER_CATEGORIES, Cable, Device, Plan
from netaudit.standards.runs import RunCable, allowance_m


class Run(NamedTuple):
    """The way of one cable."""

    heading: str
    """What is said before the parts."""
    parts: tuple[Part, ...]

    @property
    def length_cm(self) -> int:
        """What the parts add up to [cm]."""
        return sum(one.length_cm for one in self.parts)

    def __str__(self) -> str:
        return self.heading + ", ".join(map(str, self.parts))


def way(plan: Plan, cable: Cable) -> Run | None:
    """The way of a cable, of a breakout that of its longest tail; None where a part of it is not known."""
    return _along_routes(plan, cable) if cable.via else _inside_rack(plan, cable)


def _along_routes(plan: Plan, cable: Cable) -> Run | None:
    """The way along routes; one that is named twice is gone twice."""
    near = _end(plan, cable, plan.devices[cable.from_port.device])
    tails = [_end(plan, cable, plan.devices[port.device]) for port in cable.to_ports]
    longest = _longest(tails)
    if near is None or longest is None:
        return None
    routes = (part(route.name, route.length_m) for route in (plan.routes[name] for name in cable.via))
    return Run(_told(cable, tails.index(longest)), (*routes, *near, *longest))


def _inside_rack(plan: Plan, cable: Cable) -> Run | None:
    """The way between devices in the same rack."""
    near = plan.devices[cable.from_port.device]
    if near.rack is None:
        return None
    rack = plan.racks[near.rack.rack]
    tails = [within_rack(rack, near, plan.devices[port.device]) for port in cable.to_ports]
    longest = _longest(tails)
    if longest is None:
        return None
    slack = part("slack", 2 * allowance_m("rack", "slack at a plug"))
    return Run(f"{_told(cable, tails.index(longest))}rack {rack.name}: ", (*longest, slack))


def _longest(tails: Sequence[tuple[Part, ...] | None]) -> tuple[Part, ...] | None:
    """The longest of some ways; None where one of them is not known."""
    known = [tail for tail in tails if tail is not None]
    if len(known) < len(tails):
        return None
    return max(known, key=lambda tail: sum(one.length_cm for one in tail), default=None)


def _told(cable: Cable, tail: int) -> str:
    """What is said of a breakout before the way of one of its tails; nothing of other cables."""
    return "" if len(cable.to_ports) == 1 else f"longest tail, to {cable.to_ports[tail]}: "


def _end(plan: Plan, cable: Cable, device: Device) -> tuple[Part, ...] | None:
    """What a cable along routes needs at a device; None where nobody knows where that stands."""
    if device.rack is not None:
        rack = plan.racks[device.rack.rack]
        down = down_rack(rack, device)
        return None if down is None else (*down, _kept_in_rack(device))
    if device.role == "outlet":
        drop_m, loop_m = allowance_m("outlet", "drop"), allowance_m("outlet", "service loop", _kind(cable))
        return part(f"drop to {device.name}", drop_m), part("service loop", loop_m)
    if device.room is not None:
        drop_m, slack_m = allowance_m("room", "drop"), allowance_m("room", "slack at a plug")
        return part(f"drop to {device.name}", drop_m), part("slack", slack_m)
    return None


def _kept_in_rack(device: Device) -> Part:
    """What is left over in a rack: a loop where the cable is terminated in place, slack at a plug."""
    if device.passive:
        return part("service loop", allowance_m("rack", "service loop"))
    return part("slack", allowance_m("rack", "slack at a plug"))


def _kind(cable: Cable) -> RunCable:
    """The cable that an allowance is for; one of unknown category takes the longer, as fibre does."""
    return "twisted pair" if cable.category in COPPER_CATEGORIES else "other"
