"""References: everything a plan refers to is in the plan, each wrong one with the nearest right spelling."""

from __future__ import annotations

from collections.abc import Set

from netaudit.model.place import PortRef
from netaudit.model.plan import Cable, Plan
from netaudit.plan.reading.problems import Complaint, Problems
from netaudit.plan.reading.raw import Document
from netaudit.plan.references.devices import check_device
from netaudit.plan.references.register import Register
from netaudit.plan.scalars.text import quoted

MOST_CABLES_IN_PASSIVE_PORT = 2


def check_references(plan: Plan, document: Document, problems: Problems) -> None:
    """Note every reference of the plan to something that is not there, or not of the right kind.

    `plan` lacks the items of `document` that have problems already; what refers to them is let pass.
    """
    register = Register(plan, document, problems)
    _check_networks(plan, register)
    for rack in plan.racks.values():
        if rack.room is not None and register.declares("rooms"):
            register.tell(("racks", rack.name, "room"), register.unknown("rooms", rack.room))
    for device in plan.devices.values():
        check_device(device, register)
    _check_cables(plan, register)
    copies = document.spot.below("copies").raw
    if len(copies) == len(plan.copies):
        _check_copies(plan, register)


def _check_networks(plan: Plan, register: Register) -> None:
    owner: dict[int, str] = {}
    for network in plan.networks.values():
        if network.vlan is None:
            continue
        first = owner.setdefault(network.vlan, network.name)
        if first != network.name:
            message = f"VLAN {network.vlan} is network {quoted(first)} already: give one of the two another"
            register.tell(("networks", network.name, "vlan"), Complaint(message))


def _check_cables(plan: Plan, register: Register) -> None:
    cables_in: dict[PortRef, list[str]] = {}
    for cable in plan.cables.values():
        before: set[PortRef] = set()
        for nth, end in enumerate(cable.ends):
            location = ("cables", cable.name, "to", nth - 1) if nth else ("cables", cable.name, "from")
            complaint = _end_complaint(end, register) or _second_end_complaint(end, before)
            if complaint is None:
                complaint = _crowding_complaint(cable, end, cables_in, register)
            before.add(end)
            register.tell(location, complaint)
        for nth, route in enumerate(cable.via):
            register.tell(("cables", cable.name, "via", nth), register.unknown("routes", route))


def _end_complaint(end: PortRef, register: Register) -> Complaint | None:
    device = register.devices.get(end.device)
    if device is None:
        return register.unknown("devices", end.device)
    return register.no_port(device, end.port)


def _second_end_complaint(end: PortRef, before: Set[PortRef]) -> Complaint | None:
    if end not in before:
        return None
    return Complaint(f"both ends are in {quoted(str(end))}: a cable joins two ports")


def _crowding_complaint(
    cable: Cable, end: PortRef, cables_in: dict[PortRef, list[str]], register: Register
) -> Complaint | None:
    device = register.devices.get(end.device)
    if device is None or not device.passive:
        return None
    there = cables_in.setdefault(end, [])
    there.append(cable.name)
    if len(there) <= MOST_CABLES_IN_PASSIVE_PORT:
        return None
    return Complaint(
        f"{quoted(str(end))} joins {quoted(there[0])} and {quoted(there[1])} already: a jack joins two cables"
    )


def _check_copies(plan: Plan, register: Register) -> None:
    for nth, copy in enumerate(plan.copies):
        register.tell(("copies", nth, "from"), register.unknown("devices", copy.from_device))
        register.tell(("copies", nth, "to"), register.unknown("devices", copy.to_device))
