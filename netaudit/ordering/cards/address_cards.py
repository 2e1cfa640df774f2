"""Address cards: what to set on each seat and storage, which address to mount, and what not to set."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.model.moving import AddressCard, Mount
from netaudit.model.path import Path
from netaudit.model.place import PortRef
from netaudit.model.plan import Address, Plan, Station, Storage
from netaudit.network.forwarding import bond_of
from netaudit.network.topology import Topology
from netaudit.ordering.cards.cautions import to_mind
from netaudit.ordering.cards.leave_alone import to_leave
from netaudit.ordering.cards.roads import Roads
from netaudit.ordering.cards.settings import CardPort, Subnets, card_ports


def address_cards(plan: Plan, topology: Topology) -> tuple[AddressCard, ...]:
    """A card for each seat and each storage, in plan order.

    A seat mounts each storage it edits from by the address at the far end of the planned road; of a cluster by the
    address that moves between its nodes.
    """
    subnets, roads = Subnets(plan), Roads(plan, topology)
    mounts = _mounts(plan, subnets, topology)
    seats: dict[str, list[tuple[str, Mount]]] = {}
    for station, own in mounts.items():
        for mount in own:
            seats.setdefault(mount.storage, []).append((station, mount))
    return tuple(
        _card(device, card_ports(plan, subnets, device), roads, mounts.get(device.name, ()), seats.get(device.name, ()))
        for device in plan.devices.values()
        if isinstance(device, Station | Storage)
    )


def _card(
    device: Station | Storage,
    ports: Sequence[CardPort],
    roads: Roads,
    mounts: Sequence[Mount],
    seats: Sequence[tuple[str, Mount]],
) -> AddressCard:
    """The card of a machine with what it mounts, or with the seats that edit from it and how each mounts it."""
    cut_off = [station for station, mount in seats if mount.through is None]
    return AddressCard(
        device=device.name,
        role="station" if isinstance(device, Station) else "storage",
        settings=tuple(port.setting for port in ports),
        mounts=tuple(mounts),
        mounted_by=tuple(
            (station, mount.addresses[0] if mount.addresses else None)
            for station, mount in seats
            if mount.through is not None
        ),
        leave=tuple(to_leave(device, ports, mounts)),
        mind=tuple(to_mind(device, ports, roads, cut_off)),
    )


def _mounts(plan: Plan, subnets: Subnets, topology: Topology) -> dict[str, list[Mount]]:
    """Each seat to what it mounts; seats that share a road's far end share what follows from it."""
    ends: dict[tuple[PortRef, str | None], tuple[tuple[Address, ...], tuple[Address, ...]]] = {}
    mounts: dict[str, list[Mount]] = {}
    for path in topology.paths:
        if path.planned:
            mounts.setdefault(path.station, []).append(_mount(plan, subnets, path, ends))
    return mounts


def _mount(
    plan: Plan,
    subnets: Subnets,
    path: Path,
    ends: dict[tuple[PortRef, str | None], tuple[tuple[Address, ...], tuple[Address, ...]]],
) -> Mount:
    """What a seat mounts over a planned path; nothing to mount, and nothing to keep from, where no road leads there."""
    storage = plan.devices[path.storage]
    if path.to_port is None or not isinstance(storage, Storage):
        return Mount(path.storage, (), None, None, ())
    network = None if path.routed else path.network
    key = (path.to_port, network)
    if key not in ends:
        use = _addresses_at(subnets, storage, path.to_port.port, network)
        others = dict.fromkeys(each for each in _every_address(storage) if each not in use)
        ends[key] = (use, tuple(others))
    use, never = ends[key]
    return Mount(path.storage, use, path.from_port, path.network, never)


def _addresses_at(subnets: Subnets, storage: Storage, name: str, network: str | None) -> tuple[Address, ...]:
    """The addresses of a storage to be used at a port of its own, in a network where that is known."""
    port = storage.ports[name]
    bond = storage.bonds.get(bond_of(storage).get(name, ""))
    untagged = port.untagged or (None if bond is None else bond.untagged)
    networks = [network] if network is not None else [each for each in (untagged, *port.tagged) if each is not None]
    moving = tuple(storage.virtual[each] for each in networks if each in storage.virtual)
    own = (*port.addresses, *(() if bond is None else bond.addresses))
    inside = tuple(each for each in own if any(subnets.holding(each, network) is not None for network in networks))
    return moving or inside or own


def _every_address(storage: Storage) -> Iterator[Address]:
    """Every address of a storage, whether it serves there or not."""
    for port in storage.ports.values():
        yield from port.addresses
    for bond in storage.bonds.values():
        yield from bond.addresses
    yield from storage.virtual.values()
