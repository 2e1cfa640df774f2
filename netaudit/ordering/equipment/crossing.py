"""What crosses each bridge: the networks that pass it, and the largest packet that their hosts send."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from netaudit.model.plan import Plan
from netaudit.network.forwarding import FORWARDING_ROLES, Edge, Forwarding, port_mtu
from netaudit.network.islands import Islands
from netaudit.network.topology import Topology


class Crossing(NamedTuple):
    """What crosses one device."""

    networks: tuple[str, ...] = ()
    """Networks that something on them names, in file order."""
    packet_octets: int | None = None
    """Largest packet of the hosts and networks [octets]; None where none says."""


class _Way(NamedTuple):
    """A link as one bridge sees it."""

    bridge: int
    other: int | None
    """Bridge at its other end; None where there is none."""
    octets: int
    """Largest packet of the hosts at its ends [octets]; 0 where none says."""


def crossings(plan: Plan, topology: Topology) -> Mapping[str, Crossing]:
    """What crosses each device that forwards and on which a link runs, by its name.

    All that hangs together in a network counts, whichever way round a ring the frames go. Bridges that are joined by
    links of every network count as one, so that each network is followed over those links alone that name it.
    """
    graph = topology.forwarding
    everywhere, naming = _ways(plan, graph)
    whole = _joined((way.bridge, way.other) for way in everywhere)
    hosts: dict[int, int] = {}
    for way in everywhere:
        hosts[whole.of(way.bridge)] = max(hosts.get(whole.of(way.bridge), 0), way.octets)
    packets = dict(hosts)
    networks: dict[int, list[str]] = {part: [] for part in hosts}
    for network in plan.networks.values():
        for parts, octets in _groups(naming.get(network.name, ()), whole, hosts):
            for part in parts:
                networks.setdefault(part, []).append(network.name)
                packets[part] = max(packets.get(part, 0), octets, network.mtu or 0)
    crossed = ((name, whole.of(bridge)) for bridge, name in enumerate(graph.names))
    return {name: Crossing(tuple(networks[part]), packets[part] or None) for name, part in crossed if part in networks}


def _ways(plan: Plan, graph: Forwarding) -> tuple[Sequence[_Way], Mapping[str, Sequence[_Way]]]:
    """The links of each bridge: those that carry every network, and those that name some, by network."""
    everywhere: list[_Way] = []
    naming: dict[str, list[_Way]] = {}
    for port, edges in graph.ways.items():
        bridge = graph.bridge_of.get(port)
        if bridge is None:
            continue
        for edge in edges:
            way = _Way(bridge, edge.bridge, _host_octets(plan, edge))
            networks = graph.named(edge)
            if networks is None:
                everywhere.append(way)
            for network in networks or ():
                naming.setdefault(network, []).append(way)
    return everywhere, naming


def _joined(pairs: Iterable[tuple[int, int | None]]) -> Islands[int]:
    islands: Islands[int] = Islands()
    for one, other in pairs:
        if other is not None:
            islands.join(one, other)
    return islands


def _groups(ways: Sequence[_Way], whole: Islands[int], hosts: Mapping[int, int]) -> Iterator[tuple[Iterable[int], int]]:
    """The parts that one network joins, with the largest packet of the hosts that it reaches there [octets]."""
    joined = _joined((whole.of(way.bridge), None if way.other is None else whole.of(way.other)) for way in ways)
    parts: dict[int, dict[int, None]] = {}
    octets: dict[int, int] = {}
    for way in ways:
        part = whole.of(way.bridge)
        group = joined.of(part)
        parts.setdefault(group, {})[part] = None
        octets[group] = max(octets.get(group, 0), way.octets, hosts.get(part, 0))
    return ((parts[group], octets[group]) for group in parts)


def _host_octets(plan: Plan, edge: Edge) -> int:
    """The largest packet of the ends at which frames begin and end, not of switches and their like [octets]."""
    ends = ((plan.devices[end.device], end.port) for end in (edge.out_port, edge.in_port))
    return max((port_mtu(device, port) or 0 for device, port in ends if device.role not in FORWARDING_ROLES), default=0)
