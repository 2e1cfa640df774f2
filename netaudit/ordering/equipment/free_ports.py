"""Free ports: what is left of each kind on every switch, panel and outlet when all is plugged in."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from netaudit.model.bill import FreePorts
from netaudit.model.place import PortRef
from netaudit.model.plan import Connector, Device, Plan, Port
from netaudit.network.topology import Topology
from netaudit.units import rate_text


class PortKind(NamedTuple):
    """What makes ports of one device equal to whoever plugs something in."""

    connector: Connector | None
    rate_bit_per_s: int | None
    """Highest rate [bit/s]; None is unknown, and for passive ports, which have none."""


def kind_of(port: Port) -> PortKind:
    """The kind of a port."""
    return PortKind(port.connector, None if port.rates is None else port.rates.bit_per_s[0])


def kind_text(kind: PortKind) -> str:
    """A kind of port in words: `rj45`, `sfp+ 10 Gb/s`; `port` where the connector is not known."""
    rate = None if kind.rate_bit_per_s is None else rate_text(kind.rate_bit_per_s)
    return " ".join(filter(None, (kind.connector or "port", rate)))


def plugged_ports(device: Device) -> Mapping[str, Port]:
    """The ports of a device that something can be plugged into, but for those kept for its management."""
    return {
        name: port for name, port in device.ports.items() if port.connector != "radio" and port.purpose != "management"
    }


def free_ports(plan: Plan, topology: Topology) -> tuple[FreePorts, ...]:
    """Ports by kind, free and all, of each switch, panel and outlet; devices and kinds in file order.

    A port is free while no cable ends at it: the passive end of a spare run is taken, a bond's member without a cable
    is free. A kind of which none is left is told as well.
    """
    return tuple(
        row
        for device in plan.devices.values()
        if device.role == "switch" or device.passive
        for row in _rows(device, topology)
    )


def _rows(device: Device, topology: Topology) -> list[FreePorts]:
    cables_at = topology.cabling.cables_at
    free: dict[PortKind, int] = {}
    every: dict[PortKind, int] = {}
    for name, port in plugged_ports(device).items():
        kind = kind_of(port)
        every[kind] = every.get(kind, 0) + 1
        free[kind] = free.get(kind, 0) + (PortRef(device.name, name) not in cables_at)
    return [FreePorts(device.name, *kind, free=free[kind], of=every[kind]) for kind in every]
