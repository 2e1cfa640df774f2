"""What crosses each bridge: the networks that pass it, and the largest packet that their hosts send."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import Plan
from netaudit.network.forwarding import FORWARDING_ROLES, Edge, port_mtu
from netaudit.network.islands import Islands
from netaudit.network.topology import Topology


class Crossing(NamedTuple):
    """What crosses one device."""

    networks: tuple[str, ...]
    """Networks that something on them names, in file order."""
    packet_octets: int | None
    """Largest packet of the hosts and networks [octets]; None where none says."""


def crossings(plan: Plan, topology: Topology) -> Mapping[str, Crossing]:
    """What crosses each device that forwards and on which a link runs, by its name.

    All that hangs together in a network counts, whichever way round a ring the frames go.
    """
    networks: dict[str, list[str]] = {}
    packets: dict[str, int] = {}
    for network in plan.networks or (None,):
        for bridges, ends in _parts(topology, network):
            if network is not None and not _named(plan, ends, network):
                continue
            mtus = [mtu for mtu in (_planned(plan, network), *_host_mtus(plan, ends)) if mtu is not None]
            for bridge in bridges:
                name = topology.forwarding.names[bridge]
                networks.setdefault(name, []).extend(() if network is None else (network,))
                if mtus:
                    packets[name] = max(packets.get(name, 0), *mtus)
    return {name: Crossing(tuple(dict.fromkeys(names)), packets.get(name)) for name, names in networks.items()}


def _parts(topology: Topology, network: str | None) -> Iterable[tuple[list[int], list[PortRef]]]:
    """The bridges that hang together in a network, with every port at an end of their links."""
    graph = topology.forwarding
    passing: list[tuple[int, Edge]] = []
    islands: Islands[int] = Islands()
    for port, ways in graph.ways.items():
        bridge = graph.bridge_of.get(port)
        for edge in ways if bridge is not None else ():
            if bridge is None or not graph.passes(edge, network):
                continue
            passing.append((bridge, edge))
            if edge.bridge is not None:
                islands.join(bridge, edge.bridge)
    parts: dict[int, tuple[dict[int, None], list[PortRef]]] = {}
    for bridge, edge in passing:
        bridges, ends = parts.setdefault(islands.of(bridge), ({}, []))
        bridges[bridge] = None
        ends.extend((edge.out_port, edge.in_port))
    return ((list(bridges), ends) for bridges, ends in parts.values())


def _named(plan: Plan, ends: Iterable[PortRef], network: str) -> bool:
    """Whether any of some ports, or a bond that one is in, names a network."""
    for end in ends:
        device = plan.devices[end.device]
        port = device.ports[end.port]
        if network == port.untagged or network in port.tagged:
            return True
        if any(bond.untagged == network and end.port in bond.ports for bond in device.bonds.values()):
            return True
    return False


def _planned(plan: Plan, network: str | None) -> int | None:
    return None if network is None else plan.networks[network].mtu


def _host_mtus(plan: Plan, ends: Iterable[PortRef]) -> Iterable[int | None]:
    """The largest packet of each port at which frames begin and end, not of switches and their like."""
    devices = ((plan.devices[end.device], end.port) for end in ends)
    return (port_mtu(device, port) for device, port in devices if device.role not in FORWARDING_ROLES)
