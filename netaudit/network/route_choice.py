"""Route choice: by which of its ports a station sends to a storage, as the published rule of its system has it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import inf
from typing import Literal, NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import Bond, Network, Plan, Port, Station
from netaudit.model.vocabulary import Address
from netaudit.network.forwarding import Forwarding, bond_of
from netaudit.standards.metrics import manager_metric, speed_metric, speed_metrics

By = Literal["alone", "prefix", "order", "hand", "software"]
"""What decides: alone, no other port lies there · prefix, the narrower subnet · order, the service order of macOS, with
routers · hand, a metric that somebody set · software, metrics that the system chose by itself."""
Kind = Literal["ethernet", "bond", "vlan", "bridge", "wi-fi"]
Bounds = tuple[float, float]
"""The least and the most that a metric may be."""


class Exit(NamedTuple):
    """A way out of a station into one network: a port, a bond or bridged ports with a link."""

    port: PortRef
    """The port; of bonded ports the bond, of bridged ports the first one with a link."""
    members: tuple[PortRef, ...]
    """The ports with a link that it consists of."""
    network: Network | None
    """None where the plan tells none."""
    kind: Kind
    rates_bit_per_s: tuple[int | None, ...]
    """What its links agree on [bit/s], None where that is open; a radio may have several links."""
    leased: bool = False
    """Whether the network hands out its address, and with it a router where there is one."""

    @property
    def routed(self) -> bool | None:
        """Whether its settings name a router; None where that is open.

        Beside a fixed address somebody may have typed one in or not, which no plan tells.
        """
        if self.network is None:
            return None
        return False if self.network.gateway is None else True if self.leased else None


class Choice(NamedTuple):
    """Which exit a station's system takes."""

    exit: Exit | None
    """None where its rule does not decide."""
    by: By | None
    """None where nothing decides."""
    among: tuple[Exit, ...]
    """Those it chooses among, one for each port, in file order: those of the longest prefix. None lies there: empty."""


def exits(plan: Plan, graph: Forwarding, station: Station) -> tuple[Exit, ...]:
    """The exits of a station, in file order of their ports, one for each network that a port lies in."""
    bonds = bond_of(station)
    groups: dict[str, list[str]] = {}
    for name in station.ports:
        if PortRef(station.name, name) in graph.ways:
            bridge = next((first for first in groups if first in station.bridges), name)
            groups.setdefault(bonds.get(name, bridge if name in station.bridges else name), []).append(name)
    return tuple(each for name, members in groups.items() for each in _exits_of(plan, graph, station, name, members))


def _exits_of(plan: Plan, graph: Forwarding, station: Station, name: str, members: Sequence[str]) -> Iterator[Exit]:
    refs = tuple(PortRef(station.name, member) for member in members)
    rates = tuple(edge.link.agreed_bit_per_s for ref in refs for edge in graph.ways[ref])
    port = station.ports[members[0]]
    bond = station.bonds.get(name)
    untagged, tagged = port.untagged or (bond.untagged if bond is not None else None), port.tagged
    kind: Kind = "wi-fi" if port.connector == "radio" else "ethernet"
    if bond is not None:
        kind = "bond"
    elif name in station.bridges:
        kind = "bridge"
    own = plan.networks.get(untagged) if untagged is not None else _network_of(plan, port, bond)
    leased = any(one.leased for one in (bond, *(station.ports[member] for member in members)) if one is not None)
    if own is not None or not tagged:
        yield Exit(PortRef(station.name, name), refs, own, kind, rates, leased)
    for network in tagged:
        yield Exit(PortRef(station.name, name), refs, plan.networks.get(network), "vlan", rates)


def _network_of(plan: Plan, port: Port, bond: Bond | None) -> Network | None:
    """The network that the addresses of a port lie in which names none."""
    addresses = (*port.addresses, *(bond.addresses if bond is not None else ()))
    return next(
        (network for network in plan.networks.values() if any(_prefix(network, each) for each in addresses)), None
    )


def choose(
    station: Station, ways_out: Iterable[Exit], network: Network | None, address: Address | None = None
) -> Choice:
    """The exit by which a station sends to an address in a network.

    The longest prefix that holds the address comes first; without an address or subnets the ports of the network
    contend by its name. Among several the published rule of the station's system decides, or does not.
    """
    prefixes = {each: _prefix(each.network, address) for each in ways_out}
    longest = max(prefixes.values(), default=0)
    holding = [each for each, prefix in prefixes.items() if (prefix if longest else each.network == network)]
    first_of: dict[PortRef, Exit] = {}
    for each in holding:
        if prefixes[each] == longest:
            first_of.setdefault(each.port, each)
    among = tuple(first_of.values())
    if len(among) > 1:
        return _by_system(station, among)
    if not among:
        return Choice(None, None, ())
    return Choice(among[0], "prefix" if len({each.port for each in holding}) > 1 else "alone", among)


def _prefix(network: Network | None, address: Address | None) -> int:
    """Length of the longest prefix of a network that holds an address [bits]; 0 where none does."""
    if network is None or address is None:
        return 0
    return max((subnet.prefixlen for subnet in network.subnets if address in subnet), default=0)


def _by_system(station: Station, among: tuple[Exit, ...]) -> Choice:
    if station.system == "macos":
        first = _first_service(station, among)
        return Choice(first, None if first is None else "order", among)
    if station.system == "windows":
        return _by_metric(station, among, (_speed_as_printed, _speed_halved))
    if station.system == "linux":
        return _by_metric(station, among, (_managed(station.manager),))
    return Choice(None, None, among)


def _first_service(station: Station, among: tuple[Exit, ...]) -> Exit | None:
    """The service of macOS that ranks best whichever ports have a router; None where that is open.

    Those with a router come first, and then the service order, as long as all of them are in it.
    """
    rivals = [each for each in among if each.routed is not False]
    first = _first_in_order(station, rivals or among)
    if not rivals or first is None or first.routed:
        return first
    return first if len(rivals) == 1 and first == _first_in_order(station, among) else None


def _first_in_order(station: Station, among: Sequence[Exit]) -> Exit | None:
    """The one that stands first in the service order; None where one of several is not in it."""
    if len(among) == 1:
        return among[0]
    places = [_place(station, each) for each in among]
    known = [place for place in places if place is not None]
    return among[places.index(min(known))] if len(known) == len(places) else None


def _place(station: Station, way_out: Exit) -> int | None:
    """Where an exit stands in the service order; None where it is not in it."""
    own = {way_out.port.port, *(member.port for member in way_out.members)}
    return next((place for place, name in enumerate(station.service_order) if name in own), None)


def metric_by_hand(station: Station, way_out: Exit) -> int | None:
    """The metric that somebody set for an exit; None where nobody did."""
    names = (way_out.port.port, *(member.port for member in way_out.members))
    return next((station.metrics[name] for name in names if name in station.metrics), None)


def automatic_metric(station: Station, way_out: Exit) -> Bounds | None:
    """What the station's system counts an exit by where nobody set it, at least and at most; None if no table tells."""
    if station.system == "windows":
        readings = [_speed_as_printed(way_out), _speed_halved(way_out)]
        return min(least for least, _ in readings), max(most for _, most in readings)
    row = manager_metric(station.manager or "", way_out.kind) if station.system == "linux" else None
    return None if row is None else (row.metric, row.metric)


def _by_metric(station: Station, among: tuple[Exit, ...], readings: Sequence[Callable[[Exit], Bounds]]) -> Choice:
    """The exit whose metric is lowest by each reading of the rule."""
    by_hand = [metric_by_hand(station, each) for each in among]
    winners = {
        _lowest([reading(each) if hand is None else (hand, hand) for each, hand in zip(among, by_hand, strict=True)])
        for reading in readings
    }
    winner = winners.pop() if len(winners) == 1 else None
    if winner is None:
        return Choice(None, None, among)
    others = [hand for place, hand in enumerate(by_hand) if place != winner]
    return Choice(among[winner], "hand" if by_hand[winner] is not None or None not in others else "software", among)


def _lowest(bounds: Sequence[Bounds]) -> int | None:
    """The place of the metric that is lower than all others whatever is open; None where there is none."""
    for place, (_, most) in enumerate(bounds):
        if all(most < least for other, (least, _) in enumerate(bounds) if other != place):
            return place
    return None


def _speed_as_printed(way_out: Exit) -> Bounds:
    return _speed_bounds(way_out, 1)


def _speed_halved(way_out: Exit) -> Bounds:
    """The other reading of the page behind the table, by which a radio counts at half its speed."""
    return _speed_bounds(way_out, 2 if way_out.kind == "wi-fi" else 1)


def _speed_bounds(way_out: Exit, divisor: int) -> Bounds:
    kind = "wi-fi" if way_out.kind == "wi-fi" else "wired"
    rates = [rate for rate in way_out.rates_bit_per_s if rate is not None]
    if len(rates) < len(way_out.rates_bit_per_s):
        every = [row.metric for row in speed_metrics()[kind]]
        return min(every), max(every)
    speeds = [sum(rates)] if way_out.kind == "bond" else rates
    found = [speed_metric(kind, speed / divisor).metric for speed in speeds]
    return min(found), max(found)


def _managed(manager: str | None) -> Callable[[Exit], Bounds]:
    """What the manager of a Linux system counts; anything where it is not told or stands in no table."""

    def bounds(way_out: Exit) -> Bounds:
        row = manager_metric(manager or "", way_out.kind)
        return (0, inf) if row is None else (row.metric, row.metric)

    return bounds
