"""What to know or to ask before parts are ordered, and what no bill can hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.listing import FEW, first_few, listed
from netaudit.model.place import PortRef
from netaudit.model.plan import Cable, HostCable, Plan, Port, Storage
from netaudit.network.topology import Topology
from netaudit.ordering.equipment.parts import new_adapters, new_devices
from netaudit.ordering.shop.ends import FIBRE_CONNECTORS
from netaudit.units import length_text

TO_SAY = ("switch", "storage", "router", "access-point", "ups", "other")
"""Roles that are only bought where the plan says so."""
NEVER_ON_THE_BILL = (
    "Never on this bill: tools and testers, a fibre cleaner and a fibre microscope, label stock, cage nuts and screws, "
    "shelves, blanks, cable managers and ties. Nor mains cords, outlets behind a UPS and earth bonding: what touches "
    "mains or earth is for a licensed electrician, by the local code."
)
"""Common practice, no source."""


def part_remarks(plan: Plan, topology: Topology, bulk: Sequence[Cable]) -> tuple[str, ...]:
    """What to know or to ask before parts are ordered, a sentence each; `bulk` are the cables cut from boxes.

    Common practice, no source.
    """
    return (
        *_jacks(plan, bulk),
        *_couplers(plan),
        *_host_cables(plan),
        *_cards_with_two_ports(plan),
        *_disks(plan),
        *_fed_over_cable(plan, topology),
        *_not_said_to_be_bought(plan),
    )


def _jacks(plan: Plan, bulk: Sequence[Cable]) -> Iterator[str]:
    ends = {end for cable in bulk for end in cable.ends}
    housings = [
        device.name
        for device in new_devices(plan)
        if device.passive and any(PortRef(device.name, port) in ends for port in device.ports)
    ]
    if housings:
        yield (
            f"Ask whether {listed(housings)} {_comes(housings)} with jacks: the bill has a jack for each end of a new "
            "run."
        )


def _couplers(plan: Plan) -> Iterator[str]:
    housings = [
        device.name
        for device in new_devices(plan)
        if device.passive and any(port.connector in FIBRE_CONNECTORS for port in device.ports.values())
    ]
    if housings:
        yield f"Ask whether {listed(housings)} {_comes(housings)} with couplers for fibre: the bill has none."


def _comes(things: Sequence[object]) -> str:
    return "comes" if len(things) == 1 else "come"


def _host_cables(plan: Plan) -> Iterator[str]:
    """A question for each kind of cable between computers and adapters that are bought."""
    kinds: dict[HostCable, list[PortRef]] = {}
    for ref, port in _adapter_ports(plan):
        if port.host_cable is not None:
            kinds.setdefault(port.host_cable, []).append(ref)
    for kind, refs in kinds.items():
        adapters, its = ("adapter", "its") if len(refs) == 1 else ("adapters", "their")
        cable = (
            f"{'active ' if kind.active else ''}cable{'' if len(refs) == 1 else 's'} of {length_text(kind.length_m)}"
        )
        yield f"Ask whether the {adapters} for {listed(refs)} {_comes(refs)} with {its} {cable}: the bill has none."


def _adapter_ports(plan: Plan) -> Iterator[tuple[PortRef, Port]]:
    """Ports of the adapters that are bought, in machines or beside them."""
    yield from new_adapters(plan)
    for device in new_devices(plan):
        if device.role == "adapter":
            yield from ((PortRef(device.name, name), port) for name, port in device.ports.items())


def _cards_with_two_ports(plan: Plan) -> Iterator[str]:
    """A question where several adapters that are bought for one machine hang on one bus."""
    shared: dict[tuple[str, str], list[PortRef]] = {}
    for ref, port in new_adapters(plan):
        if port.bus is not None and port.bus.via is not None:
            shared.setdefault((ref.device, port.bus.via), []).append(ref)
    for (_, via), refs in shared.items():
        if len(refs) > 1:
            many = "two" if len(refs) == 2 else str(len(refs))
            yield (
                f"{listed(refs)} are {many} ports on one bus ({via}): is it one card with {many} ports? The bill has "
                f"{many} adapters."
            )


def _disks(plan: Plan) -> Iterator[str]:
    """A reminder of what a new storage is filled with."""
    for device in plan.devices.values():
        if isinstance(device, Storage) and device.owned is False:
            counts = [pool.drives for pool in device.pools.values()]
            known = [count for count in counts if count is not None]
            drives = f"{sum(known)} drives" if counts and len(known) == len(counts) else "the drives"
            yield f"{device.name} is on the bill without its disks: order {drives} of its pools with it, and spares."


def _fed_over_cable(plan: Plan, topology: Topology) -> Iterator[str]:
    """A question about the access points that switches which are there may have to feed."""
    fed: dict[str, None] = {}
    feeding: dict[str, None] = {}
    for link in topology.links:
        if link.copper is None:
            continue
        for own, far in ((link.near, link.far), (link.far, link.near)):
            device, other = plan.devices[own.device], plan.devices[far.device]
            if device.role == "access-point" and other.role == "switch" and other.owned is not False:
                fed[own.device] = None
                feeding[far.device] = None
    if fed:
        yield (
            f"Ask whether {listed(fed)} {'is' if len(fed) == 1 else 'are'} to be fed over the cable, with how many "
            f"watts, and whether {listed(feeding)} {'gives' if len(feeding) == 1 else 'give'} them; otherwise each "
            "needs an injector or a power supply, and the bill has none."
        )


def _not_said_to_be_bought(plan: Plan) -> Iterator[str]:
    names = [device.name for device in plan.devices.values() if device.role in TO_SAY and device.owned is None]
    if names:
        are, they = ("is", "it is") if len(names) == 1 else ("are", "they are")
        told = listed(names) if len(names) <= FEW else first_few(names)
        yield (f"{told} {are} not on this bill: the plan does not say that {they} still to be bought (`owned: false`).")
