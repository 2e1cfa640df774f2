"""Routers: which two networks each one joins, standing as the gateway of both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from netaudit.model.place import PortRef
from netaudit.model.plan import Device, Network, Plan
from netaudit.network.forwarding import Forwarding


@dataclass(frozen=True, slots=True)
class Router:
    """A router with the networks it can pass packets between."""

    name: str
    legs: Mapping[str, PortRef]
    """Network of which it is the gateway, to a port of its own there."""

    def joins(self, one: str | None, other: str | None) -> bool:
        """Whether packets pass from one network to another one."""
        return one != other and one in self.legs and other in self.legs


def find_routers(plan: Plan, graph: Forwarding) -> tuple[Router, ...]:
    """The routers that join at least two networks, in file order."""
    routers = []
    for device in plan.devices.values():
        if device.role != "router":
            continue
        legs = {
            network.name: leg
            for network in plan.networks.values()
            if (leg := _leg(device, network, graph)) is not None and _holds_gateway(device, network)
        }
        if len(legs) > 1:
            routers.append(Router(device.name, legs))
    return tuple(routers)


def _leg(device: Device, network: Network, graph: Forwarding) -> PortRef | None:
    """The first port of a router that names a network."""
    ports = (PortRef(device.name, name) for name in device.ports)
    return next(
        (port for port in ports if not graph.carried[port].any and graph.carried[port].passes(network.name)), None
    )


def _holds_gateway(device: Device, network: Network) -> bool:
    """Whether the gateway of a network may be this router: its addresses there say so, or it has none stated."""
    if network.gateway is None:
        return False
    of_ports = (address for port in device.ports.values() for address in port.addresses)
    of_bonds = (address for bond in device.bonds.values() for address in bond.addresses)
    inside = [address for address in (*of_ports, *of_bonds) if any(address in subnet for subnet in network.subnets)]
    return not inside or network.gateway in inside
