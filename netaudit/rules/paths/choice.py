"""The rule of paths on the seat's own choice: does its system settle by which port it sends to the storage."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.citation import PLAN, Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.path import Path
from netaudit.model.place import port_place
from netaudit.model.plan import Station
from netaudit.network.route_choice import Choice, Exit, automatic_metric, choose, exits, metric_by_hand
from netaudit.rules.facts import Facts
from netaudit.rules.paths.mounting import mount_address
from netaudit.rules.rule import Rule
from netaudit.standards.metrics import manager_metric, manager_metrics, service_ranks, speed_metrics

_METRICS = (10, 100)
"""Metrics for the planned port and for the others; any two numbers do, as long as the first one is the lower."""


class Departure(NamedTuple):
    """A planned path from a seat that has several ways out."""

    path: Path
    station: Station
    exits: tuple[Exit, ...]


def _departures(facts: Facts) -> Iterator[Departure]:
    ways_out: dict[str, tuple[Exit, ...]] = {}
    for path in facts.planned:
        if path.hops and not path.routed:
            station = facts.station(path)
            if path.station not in ways_out:
                ways_out[path.station] = exits(facts.plan, facts.topology.forwarding, station)
            if len({way_out.port for way_out in ways_out[path.station]}) > 1:
                yield Departure(path, station, ways_out[path.station])


def _judge(departure: Departure, facts: Facts) -> Judgement:
    path, station, ways_out = departure
    network = facts.plan.networks.get(path.network or "")
    choice = choose(station, ways_out, network, mount_address(path, facts.plan))
    if choice.exit is None:
        if choice.among:
            return _finding(departure, choice, _undecided(station, choice))
    elif choice.by == "software" and path.from_port in choice.exit.members:
        return _finding(departure, choice, _by_software(station, choice.exit, choice))
    homeless = next((way_out for way_out in ways_out if network is not None and way_out.network is None), None)
    if homeless is None:
        return None
    return ROUTE_AMBIGUOUS.not_checked(
        port_place(homeless.port),
        reason=f"The network of {homeless.port} is not given",
        decides=f"write down `network` of {homeless.port}: in {path.network} it would contend with {path.from_port}",
    )


def _finding(departure: Departure, choice: Choice, clause: str) -> Judgement:
    path, station, _ = departure
    planned, others = _sides(path, choice)
    every = "both" if len(choice.among) == 2 else "all"
    networks = dict.fromkeys(way_out.network.name for way_out in choice.among if way_out.network is not None)
    cure = f"; or {_settled(path, station, planned, others)}" if planned else ""
    return ROUTE_AMBIGUOUS.finding(
        path.place,
        *(port_place(way_out.port) for way_out in (*planned, *others)),
        message=f"{listed(way_out.port for way_out in choice.among)} are {every} in "
        f"{listed(networks or ['one network'])}, and {clause}",
        remedy=f"Take {listed(way_out.port for way_out in others)} out of {listed(networks or ['that network'])}, "
        f"so that {path.from_port} is the only way to {path.storage}{cure}.",
        source=_rule_of(station, choice),
    )


def _sides(path: Path, choice: Choice) -> tuple[list[Exit], list[Exit]]:
    """The exit of the planned path, none if a narrower subnet leaves it out, and the others it contends with."""
    planned = [way_out for way_out in choice.among if path.from_port in way_out.members]
    return planned, [way_out for way_out in choice.among if way_out not in planned]


def _undecided(station: Station, choice: Choice) -> str:
    """Why nothing settles which of several ports is used, as a clause."""
    if station.system is None:
        return f"which of them {station.name} uses depends on its system, which the plan does not tell"
    if station.system == "macos":
        return _by_rank(station, choice)
    told = [f"{way_out.port} {counted}" for way_out in choice.among if (counted := _counted(station, way_out))]
    if not told:
        manager = f"{station.manager} is in no table" if station.manager else "what manages its network is not given"
        return f"nothing tells which of them {station.name} uses: {manager}, and of equal routes the first one wins"
    return f"nothing settles which of them {station.name} uses: it counts {listed(told)}, and the lowest wins"


def _by_rank(station: Station, choice: Choice) -> str:
    """Why macOS leaves it open: it ranks what has no router last, and what the plan cannot tell is who has one."""
    unsure = [way_out.port for way_out in choice.among if way_out.routed is None]
    if not unsure:
        return f"the service order that settles it on {station.name} is not given for them"
    return (
        "macOS ranks a port without a router last, wherever it stands in the service order: "
        f"whether {listed(unsure)} {'has' if len(unsure) == 1 else 'have'} one is not in the plan"
    )


def _by_software(station: Station, winner: Exit, choice: Choice) -> str:
    told = [f"{way_out.port} {_counted(station, way_out)}" for way_out in choice.among]
    who = station.manager if station.system == "linux" else "Windows"
    return (
        f"{station.name} uses {winner.port} only because {who} by itself counts {listed(told)}, where the lowest wins"
    )


def _counted(station: Station, way_out: Exit) -> str:
    """What an exit counts: `25`, `30 or 35`; empty where no table tells."""
    by_hand = metric_by_hand(station, way_out)
    if by_hand is not None:
        return f"{by_hand}"
    bounds = automatic_metric(station, way_out)
    if bounds is None:
        return ""
    least, most = bounds
    return f"{least:g}" if least == most else f"{least:g} to {most:g}"


def _settled(path: Path, station: Station, planned: list[Exit], others: list[Exit]) -> str:
    """The setting by which the station's own system prefers the planned port."""
    names = [way_out.port.port for way_out in (*planned, *others)]
    if station.system is None:
        return f"write down `system` of {station.name}, and what it settles this by"
    ranks = {way_out.routed for way_out in (*planned, *others)}
    if station.system == "macos" and (None in ranks or len(ranks) > 1):
        return (
            f"give {path.storage} a network and a subnet of its own without a gateway, with {path.from_port} and no "
            "other port of the seat in it, and mount it by its address there"
        )
    if station.system == "macos":
        return (
            f"drag {names[0]} above {listed(names[1:])} in the service order, "
            f"and write `service_order: [{', '.join(names)}]`"
        )
    first, later = _METRICS
    metrics = {name: first if place == 0 else later for place, name in enumerate(names)}
    return f"set their metrics by hand, and write `metrics: {_mapping(metrics)}`"


def _mapping(metrics: Mapping[str, int]) -> str:
    return "{" + ", ".join(f"{name}: {metric}" for name, metric in metrics.items()) + "}"


def _rule_of(station: Station, choice: Choice) -> Citation:
    """The published rule of a station's system; the plan where it does not tell by which one it goes."""
    if station.system == "windows":
        return speed_metrics()["wired"][0].source
    if station.system == "macos":
        return service_ranks()[True].source
    row = manager_metric(station.manager or "", choice.among[0].kind) if station.system == "linux" else None
    return PLAN if row is None else row.source


def _sources() -> Iterator[Citation]:
    yield from dict.fromkeys(
        (
            PLAN,
            *(row.source for rows in speed_metrics().values() for row in rows),
            *(row.source for row in manager_metrics().values()),
            *(row.source for row in service_ranks().values()),
        )
    )


ROUTE_AMBIGUOUS = Rule(
    name="route-ambiguous",
    family="paths",
    severity="warn",
    subjects=_departures,
    judge=_judge,
    what="A seat with two ports in the storage's network, where nothing that somebody set says which of them it uses.",
    why="The share works either way, so it may run over Wi-Fi beside an idle 10 Gb/s port, and change after a restart.",
    todo="Keep one port in the storage's network, which needs no gateway. Else set the order by hand: metrics, or on "
    "macOS the service order, which counts only among ports that all have a router or all have none.",
    sources=_sources,
)
