"""Paths: the roads with what each can carry, alone and shared, and the narrowest thing on it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import inf

from netaudit.calculations.buses import usable_bit_per_s
from netaudit.calculations.copper_run import loss_equivalent_m
from netaudit.calculations.goodput import tcp_goodput_bit_per_s
from netaudit.calculations.pools import pool_read_bit_per_s
from netaudit.model.path import Hop, Path
from netaudit.model.place import Place, PortRef, bus_place, pool_place
from netaudit.model.plan import Bus, HostCable, Plan, Station, Storage
from netaudit.model.ports import LEAST_MTU
from netaudit.network.forwarding import Edge, port_mtu
from netaudit.network.hosts import PHY as HOST_PHY
from netaudit.network.links import Link, Promised
from netaudit.network.roads import Road, Want


@dataclass(frozen=True, slots=True)
class Narrowing:
    """Something on a road that bounds what it carries."""

    place: Place
    key: object
    """What seats share when they share this."""
    least_bit_per_s: int
    """File data it passes whatever the unknown is [bit/s]."""
    most_bit_per_s: int | None
    """File data it never passes more than [bit/s]; None if nothing bounds it."""

    @property
    def narrowness(self) -> tuple[float, int]:
        """What makes it narrower than others: its upper bound, infinite where there is none, then the lower one."""
        return inf if self.most_bit_per_s is None else self.most_bit_per_s, self.least_bit_per_s


class PathMaker:
    """Turns roads into paths; knows how many seats share each thing."""

    def __init__(self, plan: Plan, wants: Iterable[Want], open_rates: Mapping[int, Promised]) -> None:
        self._plan = plan
        self._open_rates = open_rates
        self._hops: dict[tuple[int, PortRef], Hop] = {}
        self._of_link: dict[tuple[int, int], Narrowing] = {}
        self._of_bus: dict[PortRef, tuple[Narrowing, ...]] = {}
        self._docks: dict[str, Mapping[str, PortRef]] = {}
        self._planned: dict[str, set[object]] = {}
        for want in wants:
            if want.roads:
                keys = self._planned.setdefault(want.station.name, set())
                keys.update(thing.key for thing in self._narrowings(want, want.roads[0]))
        self._seats = Counter(key for keys in self._planned.values() for key in keys)

    def paths(self, want: Want) -> Iterator[Path]:
        """The paths of one seat and storage, the planned one first; one without hops where there is no road."""
        if not want.roads:
            yield Path(station=want.station.name, storage=want.storage.name, planned=True)
        for place, road in enumerate(want.roads):
            yield self._path(want, road, planned=place == 0)

    def _path(self, want: Want, road: Road, *, planned: bool) -> Path:
        promised = [self._promise(edge.link) for edge in road.edges]
        agreed = [edge.link.agreed_bit_per_s for edge in road.edges]
        mosts = [bounds.most_bit_per_s for bounds in promised if bounds.most_bit_per_s is not None]
        decided = all(bounds.bit_per_s is not None for bounds in promised)
        narrowings = list(self._narrowings(want, road))
        narrowest = min(reversed(narrowings), key=lambda thing: thing.narrowness)
        known = decided and all(thing.least_bit_per_s == thing.most_bit_per_s for thing in narrowings)
        shareable = not any(id(edge.link) in self._open_rates for edge in road.edges)
        return Path(
            station=want.station.name,
            storage=want.storage.name,
            from_port=road.from_port,
            to_port=road.to_port,
            planned=planned,
            network=road.network,
            routed=road.routed,
            agreed_bit_per_s=_least(agreed),
            promised_bit_per_s=min(bounds.least_bit_per_s for bounds in promised) if decided else None,
            at_least_bit_per_s=min(bounds.least_bit_per_s for bounds in promised),
            at_most_bit_per_s=min(mosts, default=None),
            goodput_bit_per_s=narrowest.least_bit_per_s if known else None,
            share_bit_per_s=self._share(want.station, narrowings) if known and shareable else None,
            shared_by=self._seats_on(narrowest, want.station),
            limited_by=narrowest.place,
            hops=tuple(self._hop(edge) for edge in road.edges),
        )

    def _share(self, station: Station, narrowings: list[Narrowing]) -> int:
        """File data left for a seat where it is settled which seats share what.

        Where a spanning tree is open it is not: the link that it blocks decides who crosses which of the others.
        """
        return min(thing.least_bit_per_s // self._seats_on(thing, station) for thing in narrowings)

    def _seats_on(self, thing: Narrowing, station: Station) -> int:
        """Seats whose planned roads cross something, and this seat in any case."""
        return self._seats[thing.key] + (thing.key not in self._planned[station.name])

    def _promise(self, link: Link) -> Promised:
        return self._open_rates.get(id(link), link.promised)

    def _narrowings(self, want: Want, road: Road) -> Iterator[Narrowing]:
        """What bounds a road, from the seat to the disks."""
        mtu = self._mtu(road)
        yield from self._bus(road.from_port)
        for edge in road.edges:
            key = (id(edge.link), mtu)
            if key not in self._of_link:
                self._of_link[key] = self._link(edge.link, mtu)
            yield self._of_link[key]
        yield from self._bus(road.to_port)
        for name in pools_read(want.station, want.storage):
            reads = pool_read_bit_per_s(want.storage.pools[name])
            if reads is not None:
                place = pool_place(want.storage.name, name)
                yield Narrowing(place, place, reads, reads)

    def _link(self, link: Link, mtu: int) -> Narrowing:
        """A link; what the bus behind an adapter carries is data as it is."""
        promised = self._promise(link)
        least, most = promised.least_bit_per_s, promised.most_bit_per_s
        if link.phy == HOST_PHY:
            return Narrowing(link.place, id(link), least, most)
        goodput = None if most is None else tcp_goodput_bit_per_s(most, mtu)
        return Narrowing(link.place, id(link), tcp_goodput_bit_per_s(least, mtu), goodput)

    def _bus(self, port: PortRef) -> tuple[Narrowing, ...]:
        """The bus behind a port, where it is known."""
        if port not in self._of_bus:
            own = self._plan.devices[port.device].ports[port.port]
            self._of_bus[port] = () if own.bus is None else self._new_bus(port, own.bus, own.host_cable)
        return self._of_bus[port]

    def _new_bus(self, port: PortRef, bus: Bus, host_cable: HostCable | None) -> tuple[Narrowing, ...]:
        """A bus, open up to its signalling rate where it, or so long a cable to it, is in no table.

        Ports of a device behind one dock or hub share it, and its place is that of the first.
        """
        usable = usable_bit_per_s(bus, host_cable)
        place = bus_place(port if bus.via is None else self._behind(port.device)[bus.via])
        if usable is None:
            return (Narrowing(place, place, 0, bus.rate_bit_per_s),)
        return (Narrowing(place, place, usable.rate_bit_per_s, usable.rate_bit_per_s),)

    def _behind(self, name: str) -> Mapping[str, PortRef]:
        """Each dock or hub of a device to the first port behind it."""
        if name not in self._docks:
            docks: dict[str, PortRef] = {}
            for own, port in self._plan.devices[name].ports.items():
                if port.bus is not None and port.bus.via is not None:
                    docks.setdefault(port.bus.via, PortRef(name, own))
            self._docks[name] = docks
        return self._docks[name]

    def _mtu(self, road: Road) -> int:
        """The packet that both ends and all between them pass; at an end the standard's least where none is given."""
        ends = (self._port_mtu(road.from_port), self._port_mtu(road.to_port))
        between = (self._port_mtu(port) for edge in road.edges for port in (edge.out_port, edge.in_port))
        known = (mtu for mtu in between if mtu is not None)
        return min(*(LEAST_MTU if mtu is None else mtu for mtu in ends), *known)

    def _port_mtu(self, port: PortRef) -> int | None:
        return port_mtu(self._plan.devices[port.device], port.port)

    def _hop(self, edge: Edge) -> Hop:
        key = (id(edge.link), edge.out_port)
        hop = self._hops.get(key)
        if hop is None:
            hop = self._hops[key] = self._new_hop(edge)
        return hop

    def _new_hop(self, edge: Edge) -> Hop:
        link = edge.link
        carrier, agreed = link.carrier, link.agreed_bit_per_s
        return Hop(
            from_port=edge.out_port,
            to_port=edge.in_port,
            cables=link.cables if edge.out_port == link.near else link.cables[::-1],
            phy=link.phy,
            agreed_bit_per_s=agreed,
            promised_bit_per_s=self._promise(link).bit_per_s,
            length_m=None if carrier is None else carrier.length_m,
            limit_m=None if carrier is None or agreed is None else carrier.reach_m(agreed),
            loss_equivalent_m=None if link.copper is None else loss_equivalent_m(link.copper, self._plan.regime),
            connections=0 if link.channel is None else len(link.channel.joints),
            joints=() if link.channel is None else link.channel.joints,
        )


def _least(rates: Iterable[int | None]) -> int | None:
    """The least of some rates [bit/s]; None if any is unknown."""
    every = list(rates)
    known = [rate for rate in every if rate is not None]
    return min(known) if len(known) == len(every) else None


def pools_read(station: Station, storage: Storage) -> tuple[str, ...]:
    """The pools that a seat reads from at a storage: those its rows name, or else all."""
    named = (row.pool[1] for row in station.plays if row.pool is not None and row.pool[0] == storage.name)
    return tuple(dict.fromkeys(named)) or tuple(storage.pools)
