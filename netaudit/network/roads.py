"""Roads: every pair of a seat's port and a storage's port that can exchange packets, and which is planned."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from netaudit.model.place import PortRef
from netaudit.model.plan import Device, Plan, Station, Storage
from netaudit.network.forwarding import Edge, Forwarding, bond_of
from netaudit.network.routers import Router
from netaudit.network.search import Towards, networks_between

_ANY_PORT: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Road:
    """A way over links from a seat's port to a storage's, each link in that direction."""

    from_port: PortRef
    to_port: PortRef
    network: str | None
    """Network at the seat's end; None where no port on it names one."""
    edges: tuple[Edge, ...]
    routed: bool
    """Whether a router stands in it."""

    @property
    def by_radio(self) -> bool:
        """Whether any link of it is radio."""
        return any(edge.link.by_radio for edge in self.edges)

    @property
    def promised_bit_per_s(self) -> int | None:
        """Least promised rate of its links [bit/s]; None if any is undecided."""
        rates = [edge.link.promised.bit_per_s for edge in self.edges]
        known = [rate for rate in rates if rate is not None]
        return min(known) if len(known) == len(rates) else None


@dataclass(frozen=True, slots=True)
class Want:
    """A seat and a storage it edits from, with the roads between them, the planned one first."""

    station: Station
    storage: Storage
    roads: tuple[Road, ...]


def find_wants(plan: Plan, graph: Forwarding, routers: tuple[Router, ...]) -> Iterator[Want]:
    """Every seat with every storage it edits from, in file order."""
    finder = _Finder(plan, graph, routers)
    for device, targets in edited_storages(plan):
        for storage, ports in targets:
            roads = list(finder.roads(device, storage, ports))
            roads.sort(key=lambda road: _preference(plan, road))
            yield Want(device, storage, tuple(roads))


def edited_storages(plan: Plan) -> Iterator[tuple[Station, Sequence[tuple[Storage, frozenset[str]]]]]:
    """Every seat with the storages it edits from, each once and with the ports that the seat names.

    No port stands for all of them: the seat names the storage as such, or names nothing at all.
    """
    storages = {device.name: device for device in plan.devices.values() if isinstance(device, Storage)}
    for_editing = [(storage, _ANY_PORT) for storage in storages.values() if storage.purpose == "edit"]
    for station in plan.devices.values():
        if isinstance(station, Station):
            yield station, for_editing if station.edits_from is None else _named(station.edits_from, storages)


def _named(targets: Sequence[str], storages: Mapping[str, Storage]) -> list[tuple[Storage, frozenset[str]]]:
    """The storages that `storage` and `storage/port` name, in the order in which each is named first."""
    ports: dict[str, set[str]] = {}
    for target in targets:
        name, _, port = target.partition("/")
        if name in storages:
            ports.setdefault(name, set()).add(port)
    return [(storages[name], _ANY_PORT if "" in own else frozenset(own)) for name, own in ports.items()]


def _preference(plan: Plan, road: Road) -> tuple[bool, bool, bool, float]:
    """What makes a road the planned one; equal roads stay in file order."""
    purpose = plan.networks[road.network].purpose if road.network is not None else None
    promised = road.promised_bit_per_s
    return purpose != "storage", road.by_radio, road.routed, 1.0 if promised is None else -promised


class _Finder:
    """Finds roads with one search for each storage port and network, however many seats there are."""

    def __init__(self, plan: Plan, graph: Forwarding, routers: tuple[Router, ...]) -> None:
        self._plan = plan
        self._graph = graph
        self._routers = routers
        self._networks = tuple(sorted(plan.networks, key=lambda name: plan.networks[name].purpose != "storage"))
        self._searches: dict[tuple[PortRef, str | None], Towards] = {}
        self._ends_of: dict[str, Mapping[str, list[PortRef]]] = {}

    def roads(self, station: Station, storage: Storage, only_ports: frozenset[str]) -> Iterator[Road]:
        """The roads from a seat to a storage, in file order of their ports; of a bond by the first member with one."""
        targets = [
            ports
            for name, ports in self._ends(storage).items()
            if not only_ports or not only_ports.isdisjoint((name, *(port.port for port in ports)))
        ]
        for starts in self._ends(station).values():
            for ends in targets:
                pairs = ((start, end) for start in starts for end in ends)
                roads = (self._direct(*pair) or self._routed(*pair) for pair in pairs)
                road = next((road for road in roads if road is not None), None)
                if road is not None:
                    yield road

    def _ends(self, device: Device) -> Mapping[str, list[PortRef]]:
        """Each port or bond at which a device can be addressed, to its linked ports."""
        ends = self._ends_of.get(device.name)
        if ends is None:
            ends = self._ends_of[device.name] = self._new_ends(device)
        return ends

    def _new_ends(self, device: Device) -> Mapping[str, list[PortRef]]:
        bonds = bond_of(device)
        ends: dict[str, list[PortRef]] = {}
        for name, port in device.ports.items():
            ref = PortRef(device.name, name)
            if port.serves and port.purpose != "management" and self._linked(ref):
                ends.setdefault(bonds.get(name, name), []).append(ref)
        return ends

    def _linked(self, port: PortRef) -> bool:
        return port in self._graph.ways or port in self._graph.bridge_of

    def _towards(self, target: PortRef, network: str | None) -> Towards:
        search = self._searches.get((target, network))
        if search is None:
            search = self._searches[target, network] = Towards(self._graph, target, network)
        return search

    def _direct(self, start: PortRef, target: PortRef) -> Road | None:
        for network in networks_between(self._graph, start, target, self._networks):
            edges = self._towards(target, network).from_port(start)
            if edges:
                return Road(start, target, network, edges, routed=False)
        return None

    def _routed(self, start: PortRef, target: PortRef) -> Road | None:
        """The best road through one router; of equal ones that of the first router, by its first legs."""
        return min(self._by_router(start, target), key=lambda road: _preference(self._plan, road), default=None)

    def _by_router(self, start: PortRef, target: PortRef) -> Iterator[Road]:
        for router in self._routers:
            for near in router.legs:
                if not self._graph.carried[start].passes(near):
                    continue
                to_router = self._towards(router.legs[near], near).from_port(start)
                if to_router is None:
                    continue
                for far, leg in router.legs.items():
                    onward = self._towards(target, far).from_port(leg) if router.joins(near, far) else None
                    if onward:
                        yield Road(start, target, near, (*to_router, *onward), routed=True)
