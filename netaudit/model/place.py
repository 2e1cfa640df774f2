"""Places: the names by which every finding says where."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class PortRef(NamedTuple):
    """A port by its two names."""

    device: str
    """Name of the device in the plan."""
    port: str
    """Name of the port, or of the bond, on it; may hold a slash."""

    def __str__(self) -> str:
        return f"{self.device}/{self.port}"


class Place(NamedTuple):
    """Somewhere in a plan or on a machine, as people write it: `cable W01`, `port core/3`."""

    kind: str
    """cable, port, link, device, network, path, rack, pool, copy, bus, cycle, interface, address, session …"""
    name: str
    """The name within its kind."""

    def __str__(self) -> str:
        return f"{self.kind} {self.name}"


class Position(NamedTuple):
    """Where in a file something is written, both counted from 1."""

    line: int
    column: int


Lines = Mapping[Place, Position]
"""The side table that says where in the plan's file each place is written."""


def cable_place(name: str) -> Place:
    """The place of a cable."""
    return Place("cable", name)


def port_place(port: PortRef) -> Place:
    """The place of a port or bond."""
    return Place("port", str(port))


def device_place(name: str) -> Place:
    """The place of a device."""
    return Place("device", name)


def network_place(name: str) -> Place:
    """The place of a network."""
    return Place("network", name)


def rack_place(name: str) -> Place:
    """The place of a rack."""
    return Place("rack", name)


def link_place(one: PortRef, other: PortRef) -> Place:
    """The place of a link between two ports."""
    return Place("link", f"{one} - {other}")


def path_place(station: str, storage: str) -> Place:
    """The place of the road from a station to a storage."""
    return Place("path", f"{station} > {storage}")


def bus_place(port: PortRef) -> Place:
    """The place of the host bus behind a port."""
    return Place("bus", str(port))


def pool_place(storage: str, pool: str) -> Place:
    """The place of a pool of disks."""
    return Place("pool", f"{storage}/{pool}")


def copy_places(whats: tuple[str, ...]) -> tuple[Place, ...]:
    """The places of copies in file order; equal names are told apart by ` #2`, ` #3` and so on."""
    seen: dict[str, int] = {}
    places = []
    for what in whats:
        seen[what] = seen.get(what, 0) + 1
        places.append(Place("copy", what if seen[what] == 1 else f"{what} #{seen[what]}"))
    return tuple(places)
