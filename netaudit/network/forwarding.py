"""Who passes frames to whom: bridges, the links between them, and the ends that hang on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from netaudit.model.place import PortRef
from netaudit.model.plan import Device, Plan, Port
from netaudit.network.links import Link

FORWARDING_ROLES = frozenset({"switch", "access-point", "router"})
"""Roles that forward frames between all their ports of one network."""


@dataclass(frozen=True, slots=True)
class Carried:
    """The networks whose frames a port passes, and how."""

    any: bool
    """Whether it names none and so carries all of them untagged."""
    untagged: str | None
    tagged: frozenset[str]

    def passes(self, network: str | None) -> bool:
        """Whether frames of a network pass; None is the one network of ports that name none."""
        return self.any if network is None else self.any or network == self.untagged or network in self.tagged

    def tags(self, network: str | None) -> bool:
        """Whether frames of a network travel tagged."""
        return network in self.tagged


@dataclass(frozen=True, slots=True)
class Edge:
    """One way from a bridge over a link."""

    link: Link
    out_port: PortRef
    """The bridge's own port."""
    in_port: PortRef
    """The port at the other end."""
    bridge: int | None
    """Bridge at the other end; None for a port that forwards nothing."""


@dataclass(frozen=True, slots=True)
class Forwarding:
    """The bridges of a plan by number, and every way that leaves a port."""

    names: tuple[str, ...]
    """Device of each bridge."""
    bridge_of: Mapping[PortRef, int]
    """Port to the bridge it belongs to."""
    edges: tuple[Sequence[Edge], ...]
    """Ways from each bridge to other bridges, by name of the next device, then by port."""
    ways: Mapping[PortRef, Sequence[Edge]]
    """Ways out of each port that has a link."""
    carried: Mapping[PortRef, Carried]

    def passes(self, edge: Edge, network: str | None) -> bool:
        """Whether frames of a network pass a link: both ends carry it and, on a cable, in the same manner."""
        one, other = self.carried[edge.out_port], self.carried[edge.in_port]
        alike = edge.link.by_radio or one.tags(network) == other.tags(network)
        return alike and one.passes(network) and other.passes(network)

    def named(self, edge: Edge) -> tuple[str, ...] | None:
        """The networks that pass a link because its ends name them; None where neither names any, and all pass."""
        one, other = self.carried[edge.out_port], self.carried[edge.in_port]
        if one.any and other.any:
            return None
        own = other if one.any else one
        names = dict.fromkeys((own.untagged, *sorted(own.tagged)))
        return tuple(network for network in names if network is not None and self.passes(edge, network))

    def without(self, blocked: Iterable[Link]) -> Forwarding:
        """The same without some links between bridges."""
        closed = {id(link) for link in blocked}
        if not closed:
            return self
        return replace(
            self,
            edges=tuple([edge for edge in edges if id(edge.link) not in closed] for edges in self.edges),
            ways={port: [edge for edge in ways if id(edge.link) not in closed] for port, ways in self.ways.items()},
        )


def forwarding(plan: Plan, links: Iterable[Link]) -> Forwarding:
    """The forwarding graph of a plan. A bond whose members reach the same far end counts as one way."""
    names: list[str] = []
    bridge_of: dict[PortRef, int] = {}
    carried: dict[PortRef, Carried] = {}
    for device in plan.devices.values():
        if device.passive:
            continue
        carried.update(_carried(device))
        members = forwarding_ports(device)
        if members:
            bridge_of.update((PortRef(device.name, port), len(names)) for port in members)
            names.append(device.name)
    ways: dict[PortRef, list[Edge]] = {}
    edges: list[list[Edge]] = [[] for _ in names]
    bonds = _BondedPairs(plan)
    for link in links:
        if not link.runs or bonds.repeats(link):
            continue
        for out_port, in_port in ((link.near, link.far), (link.far, link.near)):
            edge = Edge(link, out_port, in_port, bridge_of.get(in_port))
            ways.setdefault(out_port, []).append(edge)
            own = bridge_of.get(out_port)
            if own is not None and edge.bridge is not None:
                edges[own].append(edge)
    for onward in edges:
        onward.sort(key=lambda edge: (edge.in_port.device, edge.out_port, edge.in_port))
    return Forwarding(tuple(names), bridge_of, tuple(edges), ways, carried)


def forwarding_ports(device: Device) -> tuple[str, ...]:
    """The ports of a device between which frames are forwarded; empty where none are."""
    return tuple(device.ports) if device.role in FORWARDING_ROLES else device.bridges


def bond_of(device: Device) -> Mapping[str, str]:
    """Each bonded port of a device to its bond."""
    found: dict[str, str] = {}
    for name, bond in device.bonds.items():
        for member in bond.ports:
            found.setdefault(member, name)
    return found


def port_mtu(device: Device, port: str) -> int | None:
    """The largest packet that a port is set to, a member's being that of its bond [octets]; None if not given."""
    mtus = (bond.mtu for bond in device.bonds.values() if port in bond.ports)
    return next((mtu for mtu in mtus if mtu is not None), device.ports[port].mtu)


def _carried(device: Device) -> Iterator[tuple[PortRef, Carried]]:
    bond_network = {member: bond.untagged for bond in device.bonds.values() for member in bond.ports}
    shared: dict[tuple[int, str | None], Carried] = {}
    for name, port in device.ports.items():
        key = (id(port), bond_network.get(name))
        if key not in shared:
            shared[key] = _port_carries(port, key[1])
        yield PortRef(device.name, name), shared[key]


def _port_carries(port: Port, bond_network: str | None) -> Carried:
    untagged = port.untagged or bond_network
    return Carried(untagged is None and not port.tagged, untagged, frozenset(port.tagged))


@dataclass(slots=True)
class _BondedPairs:
    """Remembers which pairs of bonds already have a link, since a conversation uses one member."""

    plan: Plan
    seen: set[frozenset[tuple[str, str]]] = field(default_factory=set)
    bonds: dict[str, Mapping[str, str]] = field(default_factory=dict)
    """Device to its bonded ports with their bonds."""

    def repeats(self, link: Link) -> bool:
        near, far = self._bond(link.near), self._bond(link.far)
        if near is None or far is None:
            return False
        pair = frozenset(((link.near.device, near), (link.far.device, far)))
        if pair in self.seen:
            return True
        self.seen.add(pair)
        return False

    def _bond(self, port: PortRef) -> str | None:
        bonds = self.bonds.get(port.device)
        if bonds is None:
            bonds = self.bonds[port.device] = bond_of(self.plan.devices[port.device])
        return bonds.get(port.port)
