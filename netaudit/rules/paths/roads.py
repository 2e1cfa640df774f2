"""Rules of paths on the way they go: through a router, through the air, or beside a second and slower one."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from itertools import pairwise
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.path import Hop, Path
from netaudit.model.place import device_place, link_place, port_place
from netaudit.network.forwarding import FORWARDING_ROLES
from netaudit.network.links import Link
from netaudit.network.routers import find_routers
from netaudit.rules.facts import Facts
from netaudit.rules.paths.mounting import mount_address
from netaudit.rules.paths.promises import lacking, links_of
from netaudit.rules.rule import Rule
from netaudit.units import both_rates_text


class Way(NamedTuple):
    """A planned path that leads somewhere."""

    path: Path
    routers: Mapping[str, Collection[str]]
    """Each router of the plan to the networks of which it is the gateway."""


def _usable(facts: Facts) -> Iterator[Way]:
    routers = {router.name: router.legs for router in find_routers(facts.plan, facts.topology.forwarding)}
    return (Way(path, routers) for path in facts.planned if path.hops)


def _judge_router(way: Way, facts: Facts) -> Judgement:
    path = way.path
    if not path.routed:
        return None
    into, onward = _through_router(way, facts)
    router = into.to_port.device
    network = _beyond(path, onward, facts)
    rates = [rate for hop in (into, onward) for rate in (hop.agreed_bit_per_s,) if rate is not None]
    through = f", whose ports there run {both_rates_text(min(rates))}" if rates else ""
    return ROUTER_IN_PATH.finding(
        path.place,
        device_place(router),
        *map(port_place, dict.fromkeys((into.to_port, onward.from_port))),
        message=f"{path.station} reaches {path.storage} only through the router {router}{through}: "
        f"{path.from_port} is in {path.network}, {path.to_port} in {network}",
        remedy=f"Give {path.station} a port in {network}, or put {path.from_port} and what it is plugged into there.",
        source=PLAN,
    )


def _through_router(way: Way, facts: Facts) -> tuple[Hop, Hop]:
    """The hop that enters the router of a routed path, and the one that leaves it."""
    hops = way.path.hops
    return next(
        (into, onward)
        for into, onward in pairwise(hops)
        if way.path.network in way.routers.get(into.to_port.device, ()) and _beyond(way.path, onward, facts) is not None
    )


def _beyond(path: Path, onward: Hop, facts: Facts) -> str | None:
    """The network between a router and the storage: another one than the seat's that both carry."""
    carried = facts.topology.forwarding.carried
    if path.to_port is None:
        return None
    ends = (carried[onward.from_port], carried[path.to_port])
    others = (network for network in facts.plan.networks if network != path.network)
    return next((network for network in others if all(end.passes(network) for end in ends)), None)


ROUTER_IN_PATH = Rule(
    name="router-in-path",
    family="paths",
    severity="warn",
    subjects=_usable,
    judge=_judge_router,
    what="A seat whose road to its storage leads through a router, from one network into another.",
    why="A router mostly has 1 Gb/s ports and one processor for everybody, so the seat copies at 110 MB/s at best.",
    todo="Put the seat and its storage into one network, with a switch between them and no router.",
)


def _judge_radio(way: Way, facts: Facts) -> Judgement:
    path = way.path
    hop = next((hop for hop in path.hops if hop.phy == "radio"), None)
    if hop is None:
        return None
    ends = sorted((hop.from_port, hop.to_port), key=lambda end: facts.plan.devices[end.device].role in FORWARDING_ROLES)
    client = ends[0]
    agreed = hop.agreed_bit_per_s
    rate = f", which shows {both_rates_text(agreed)} and is promised nothing" if agreed is not None else ""
    return PLANNED_ROAD_IS_RADIO.finding(
        path.place,
        port_place(client),
        link_place(hop.from_port, hop.to_port),
        message=f"{path.station} reaches {path.storage} only through the air, by {client}{rate}",
        remedy=f"Run a cable from {client.device} to a switch that leads to "
        f"{path.storage if client.device == path.station else path.station}, in {path.network or 'the same network'}.",
        source=PLAN,
    )


PLANNED_ROAD_IS_RADIO = Rule(
    name="planned-road-is-radio",
    family="paths",
    severity="warn",
    subjects=_usable,
    judge=_judge_radio,
    what="A seat that reaches its storage by radio, because no cable leads there.",
    why="The air is shared with everything near, and its rate falls with distance, walls and every other desk.",
    todo="Run a cable; keep the radio for mail and the internet.",
)


class SecondRoad(NamedTuple):
    """A planned path, and the other ways between the same seat and storage over one other network."""

    planned: Path
    others: tuple[Path, ...]


def _second_roads(facts: Facts) -> Iterator[SecondRoad]:
    """Wired planned paths with what else is open; than a radio, which is promised nothing, nothing is slower."""
    others: dict[tuple[str, str, str], list[Path]] = {}
    for path in facts.topology.paths:
        if not path.routed and path.network is not None:
            others.setdefault((path.station, path.storage, path.network), []).append(path)
    planned = {(path.station, path.storage): path for path in facts.planned if path.network is not None}
    for (station, storage, network), paths in others.items():
        main = planned.get((station, storage))
        if main is not None and main.network != network and not _by_radio(main):
            yield SecondRoad(main, tuple(paths))


def _by_radio(path: Path) -> bool:
    return any(hop.phy == "radio" for hop in path.hops)


def _judge_second(road: SecondRoad, facts: Facts) -> Judgement:
    planned = road.planned
    slower = next((path for path in road.others if _is_slower(path, planned)), None)
    if slower is not None:
        address = mount_address(planned, facts.plan)
        instead = (
            f"by {address}, its address in {planned.network}" if address else f"by its address in {planned.network}"
        )
        given = "by radio" if _by_radio(slower) else f"at {both_rates_text(slower.at_most_bit_per_s or 0)} at the most"
        return SECOND_ROAD_OPEN.finding(
            planned.place,
            *(port_place(port) for port in (slower.to_port, slower.from_port) if port is not None),
            message=f"{planned.station} can also reach {planned.storage} over {slower.network}, "
            f"from {slower.from_port} to {slower.to_port}, {given}; the planned road is promised {_promised(planned)}",
            remedy=f"{_shut(slower, facts)}mount {planned.storage} {instead}, never by its name.",
            source=PLAN,
        )
    undecided = next((path for path in road.others if _may_be_slower(path, planned)), None)
    if undecided is None:
        return None
    missing = lacking(_open_link(undecided, planned, facts), facts)
    return SECOND_ROAD_OPEN.not_checked(missing.where, reason=missing.reason, decides=missing.decides)


def _shut(slower: Path, facts: Facts) -> str:
    """The step that closes a second road, unless another seat has no better one."""
    others = [path.station for path in facts.planned if path.to_port == slower.to_port]
    if others:
        return f"{slower.to_port} is the road of {listed(others)} and stays open, so at {slower.station} "
    return f"Share no files on {slower.to_port} and write `serves: false` there; "


def _promised(path: Path) -> str:
    return both_rates_text(path.at_least_bit_per_s) if path.at_least_bit_per_s else "a rate that is open"


def _is_slower(path: Path, planned: Path) -> bool:
    most = path.at_most_bit_per_s
    return _by_radio(path) or (most is not None and most < planned.at_least_bit_per_s)


def _may_be_slower(path: Path, planned: Path) -> bool:
    most = planned.at_most_bit_per_s
    return most is None or path.at_least_bit_per_s < most


def _open_link(path: Path, planned: Path, facts: Facts) -> Link:
    """A link that leaves it open which of two paths is the slower one: the one of least promise on an open path."""
    road = planned if path.at_least_bit_per_s == path.at_most_bit_per_s else path
    return min(links_of(road, facts), key=lambda link: facts.topology.promised(link).least_bit_per_s)


SECOND_ROAD_OPEN = Rule(
    name="second-road-open",
    family="paths",
    severity="warn",
    subjects=_second_roads,
    judge=_judge_second,
    what="A storage that also serves files on another, slower network which the seat is in as well.",
    why="The share then mounts over whichever address its name gives, often the slow one, and nobody sees which.",
    todo="Serve files on the planned network only, and mount by the address there.",
)
