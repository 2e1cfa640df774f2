"""References of devices: to racks, rooms, networks, modules, their own ports, storages and pools."""

from __future__ import annotations

from collections.abc import Iterable

from netaudit.model.plan import Device, Port, Station, Storage, Stream
from netaudit.plan.reading.problems import Complaint
from netaudit.plan.reading.raw import Location
from netaudit.plan.references.register import Register
from netaudit.plan.scalars.text import quoted


def check_device(device: Device, register: Register) -> None:
    """Note every reference of a device to something that is not there, or not of the right kind."""
    here: Location = ("devices", device.name)
    if device.rack is not None:
        register.tell((*here, "rack", "name"), register.unknown("racks", device.rack.rack))
    if device.room is not None and register.declares("rooms"):
        register.tell((*here, "room"), register.unknown("rooms", device.room))
    _check_ports(device, register)
    _check_bonds(device, register)
    _check_own_ports(device, device.bridges, (*here, "bridges"), register)
    if isinstance(device, Station):
        _check_station(device, register)
    elif isinstance(device, Storage):
        _check_storage(device, register)


def _check_ports(device: Device, register: Register) -> None:
    checked: Port | None = None
    for name, port in device.ports.items():
        if port is checked:
            continue
        checked = port
        _check_networks(device, name, port, register)
        complaint = None if port.module is None else _no_phy(port.module)
        if complaint is not None:
            register.tell((*register.port_location(device.name, name), "module"), complaint)


def _check_networks(device: Device, name: str, port: Port, register: Register) -> None:
    complaint = None if port.untagged is None else register.unknown("networks", port.untagged)
    if complaint is not None:
        register.tell(register.untagged_location(device.name, name), complaint)
    for nth, network in enumerate(port.tagged):
        complaint = register.unknown("networks", network)
        if complaint is not None:
            register.tell((*register.port_location(device.name, name), "networks", "tagged", nth), complaint)


def _no_phy(module: str) -> Complaint | None:
    from netaudit.standards.phys import phys  # noqa: PLC0415 - only a plan with modules pays for the table

    if module in phys():
        return None
    return Complaint(f"{quoted(module)} is not a module that is known: write one such as 10GBASE-SR", module, phys())


def _check_bonds(device: Device, register: Register) -> None:
    bond_of: dict[str, str] = {}
    for name, bond in device.bonds.items():
        here: Location = ("devices", device.name, "bonds", name)
        if bond.untagged is not None:
            register.tell((*here, "network"), register.unknown("networks", bond.untagged))
        if not bond.ports:
            register.tell((*here, "ports"), Complaint("a bond joins ports: name them"))
        for nth, port in enumerate(bond.ports):
            complaint = register.no_port(device, port)
            if complaint is None and port in bond_of:
                complaint = Complaint(f"port {quoted(port)} is in bond {quoted(bond_of[port])} already: keep it in one")
            bond_of[port] = name
            register.tell((*here, "ports", nth), complaint)


def _check_own_ports(device: Device, ports: Iterable[str], location: Location, register: Register) -> None:
    for nth, port in enumerate(ports):
        register.tell((*location, nth), register.no_port_or_bond(device, port))


def _check_station(station: Station, register: Register) -> None:
    here: Location = ("devices", station.name)
    _check_own_ports(station, station.service_order, (*here, "service_order"), register)
    for port in station.metrics:
        register.tell_key((*here, "metrics", port), register.no_port_or_bond(station, port))
    for nth, target in enumerate(station.edits_from or ()):
        register.tell((*here, "edits_from", nth), _no_target(target, register))
    _check_pools(station.plays, (*here, "plays"), "from", register)
    _check_pools(station.records, (*here, "records"), "to", register)


def _no_target(target: str, register: Register) -> Complaint | None:
    """The complaint about an entry of `edits_from`: a storage, or storage/port."""
    name, slash, port = target.partition("/")
    storage = register.devices.get(name)
    if storage is None:
        return register.unknown("devices", name)
    if not isinstance(storage, Storage):
        return Complaint(f"{quoted(name)} is of role {storage.role}: a seat edits from a storage")
    return register.no_port_or_bond(storage, port) if slash else None


def _check_pools(streams: Iterable[Stream], location: Location, key: str, register: Register) -> None:
    for nth, stream in enumerate(streams):
        if stream.pool is not None:
            register.tell((*location, nth, key), _no_pool(*stream.pool, register))


def _no_pool(name: str, pool: str, register: Register) -> Complaint | None:
    storage = register.devices.get(name)
    if storage is None:
        return register.unknown("devices", name)
    if not isinstance(storage, Storage):
        return Complaint(f"{quoted(name)} is of role {storage.role}: only a storage has pools")
    if pool in storage.pools:
        return None
    return Complaint(f"storage {quoted(name)} has no pool {quoted(pool)}", pool, storage.pools)


def _check_storage(storage: Storage, register: Register) -> None:
    here: Location = ("devices", storage.name)
    node_of: dict[str, str] = {}
    for node, ports in storage.nodes.items():
        for nth, port in enumerate(ports):
            complaint = register.no_port_or_bond(storage, port)
            if complaint is None and port in node_of:
                complaint = Complaint(f"port {quoted(port)} is in node {quoted(node_of[port])} already: keep it in one")
            node_of[port] = node
            register.tell((*here, "nodes", node, nth), complaint)
    for network in storage.virtual:
        register.tell_key((*here, "virtual", network), register.unknown("networks", network))
