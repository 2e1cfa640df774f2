"""What a plan expects of a machine: the ports of one station, of one storage, and the road between them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from netaudit.calculations.buses import usable_bit_per_s
from netaudit.calculations.goodput import tcp_goodput_bit_per_s
from netaudit.model.expectation import Expectation, ExpectedPort, ExpectedRoad
from netaudit.model.machine_state import Interface
from netaudit.model.path import Path
from netaudit.model.place import PortRef
from netaudit.model.plan import Device, Network, Plan, Port, Station, Storage
from netaudit.model.ports import LEAST_MTU
from netaudit.model.vocabulary import Address, Subnet
from netaudit.network.forwarding import bond_of, port_mtu
from netaudit.network.topology import Topology


def expectation(plan: Plan, topology: Topology, station: Station, storage: Storage | None) -> Expectation:
    """What a plan expects of a station and a storage; without a storage only the station's own ports."""
    planned = [
        path
        for path in topology.paths
        if path.planned and storage is not None and (path.station, path.storage) == (station.name, storage.name)
    ]
    return Expectation(
        plan=plan.name or plan.file,
        station=station.name,
        storage=None if storage is None else storage.name,
        ports={port.port.port: port for port in _ports(plan, topology, station)},
        storage_ports={} if storage is None else {port.port.port: port for port in _ports(plan, topology, storage)},
        road=_road(plan, planned[0]) if planned else None,
    )


def storage_named(plan: Plan, target: str, addresses: Collection[Address], station: Station) -> Storage | None:
    """The storage that a target means.

    It is the one of that address, else of that name or of the first label of that name, else the only one that the
    station edits from. None where none of these holds.
    """
    storages = [device for device in plan.devices.values() if isinstance(device, Storage)]
    by_address = [each for each in storages if not set(_addresses(each)).isdisjoint(addresses)]
    names = {target.casefold(), target.casefold().split(".")[0]}
    by_name = [each for each in storages if each.name.casefold() in names]
    edited = {ref.split("/")[0] for ref in station.edits_from or ()}
    own = [each for each in storages if (each.name in edited if edited else each.purpose == "edit")]
    found = by_address or by_name or (own if len(own) == 1 else [])
    return found[0] if found else None


def stations_like(plan: Plan, interfaces: Iterable[Interface]) -> tuple[Station, ...]:
    """The stations of a plan that a machine may be: one of their hardware addresses or addresses is its own."""
    seen = list(interfaces)
    macs = {interface.mac for interface in seen if interface.mac is not None}
    hosts = {host for interface in seen for host in interface.hosts}
    stations = [device for device in plan.devices.values() if isinstance(device, Station)]
    return tuple(
        station
        for station in stations
        if any(port.mac in macs for port in station.ports.values()) or not hosts.isdisjoint(_addresses(station))
    )


def planned_addresses(plan: Plan, name: str) -> tuple[Address, ...]:
    """The addresses at which a storage of that name serves, as planned; empty where there is none."""
    device = plan.devices.get(name)
    return tuple(_addresses(device)) if isinstance(device, Storage) else ()


def _addresses(device: Device) -> Iterator[Address]:
    """The addresses at which a device works; those for its care are left out."""
    for port in device.ports.values():
        if port.serves and port.purpose is None:
            yield from port.addresses
    for bond in device.bonds.values():
        yield from bond.addresses
    if isinstance(device, Storage):
        yield from device.virtual.values()


def _ports(plan: Plan, topology: Topology, device: Device) -> Iterator[ExpectedPort]:
    """The ports of a device; a member of a bond has the bond's network and addresses."""
    bonds = bond_of(device)
    links = {end: link for link in reversed(topology.links) for end in (link.near, link.far)}
    for name, port in device.ports.items():
        ref = PortRef(device.name, name)
        link = links.get(ref)
        bond = device.bonds.get(bonds.get(name, ""))
        addresses = (*port.addresses, *(bond.addresses if bond is not None else ()))
        networks = _networks(plan, port, None if bond is None else bond.untagged, addresses)
        mtu = port_mtu(device, name)
        yield ExpectedPort(
            port=ref,
            radio=port.connector == "radio",
            interface=port.interface,
            mac=port.mac,
            addresses=addresses,
            networks=tuple(network.name for network in networks),
            subnets=tuple(subnet for network in networks for subnet in network.subnets),
            agreed_bit_per_s=None if link is None else link.agreed_bit_per_s,
            far_port=None if link is None else (link.far if link.near == ref else link.near),
            mtu=mtu if mtu is not None else next((each.mtu for each in networks if each.mtu is not None), None),
            bus=None if port.bus is None else str(port.bus),
        )


def _networks(plan: Plan, port: Port, bonded: str | None, addresses: Iterable[Address]) -> list[Network]:
    """The networks of a port: those it names, else those that its addresses lie in."""
    names = [name for name in (port.untagged or bonded, *port.tagged) if name is not None]
    if names:
        return [plan.networks[name] for name in names if name in plan.networks]
    own = list(addresses)
    return [network for network in plan.networks.values() if any(_inside(each, network.subnets) for each in own)]


def _inside(address: Address, subnets: Iterable[Subnet]) -> bool:
    return any(address in subnet for subnet in subnets)


def _road(plan: Plan, path: Path) -> ExpectedRoad | None:
    if path.from_port is None or path.to_port is None:
        return None
    ends = (path.from_port, path.to_port)
    mtus = [port_mtu(plan.devices[end.device], end.port) for end in ends]
    known = [mtu for mtu in mtus if mtu is not None]
    return ExpectedRoad(
        from_port=path.from_port,
        to_port=path.to_port,
        routed=path.routed,
        agreed_bit_per_s=path.agreed_bit_per_s,
        promised_bit_per_s=path.promised_bit_per_s,
        goodput_bit_per_s=path.goodput_bit_per_s,
        network_bit_per_s=_without_disks(plan, path, ends, min(known) if len(known) == len(mtus) else LEAST_MTU),
        limited_by=path.limited_by,
        mtu=min(known) if len(known) == len(mtus) else None,
    )


def _without_disks(plan: Plan, path: Path, ends: Iterable[PortRef], mtu: int) -> int | None:
    """What links and buses leave a lone reader [bit/s]; None where that is open, as it is through the air."""
    if path.promised_bit_per_s is None:
        return None
    bounds = [tcp_goodput_bit_per_s(path.promised_bit_per_s, mtu)]
    for end in ends:
        port = plan.devices[end.device].ports[end.port]
        if port.bus is not None:
            usable = usable_bit_per_s(port.bus, port.host_cable)
            if usable is None:
                return None
            bounds.append(usable.rate_bit_per_s)
    return min(bounds)
