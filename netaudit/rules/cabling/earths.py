"""The rule about earths: no copper between buildings, each of which has an earth of its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.place import PortRef, cable_place
from netaudit.model.plan import COPPER_CATEGORIES, FIBRE_GRADES, Cable, Plan
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.rules.words import are
from netaudit.standards.earths import EarthPath, earth_paths

_KIND = {**dict.fromkeys(COPPER_CATEGORIES, "twisted pair"), **dict.fromkeys(FIBRE_GRADES, "fibre")}
_KIND_OF_MEDIUM = {"copper": "twisted pair", "twinax": "twinax", "fibre": "fibre", "host": "usb"}


class _Stretch(NamedTuple):
    """Cables of one kind from one place to others, through passive ports of which nobody knows where they are."""

    cables: tuple[Cable, ...]
    ends: tuple[PortRef, ...]
    path: EarthPath | None
    """None where it is not known what they are made of."""


def _stretches(facts: Facts) -> Iterable[_Stretch]:
    """Every stretch that joins two earths, or may, in a plan that names two buildings."""
    plan = facts.plan
    if len({room.building for room in plan.rooms.values() if room.building is not None}) < 2:
        return
    paths = _paths(facts)
    seen: set[str] = set()
    for cable in plan.cables.values():
        path = paths.get(cable.name)
        if cable.name in seen or (path is not None and not path.joins_earths):
            continue
        seen.add(cable.name)
        cables, ends = [cable], []
        for end in cable.ends:
            beyond = list(_beyond(end, path, paths, facts, seen))
            cables += [part for part, _ in beyond]
            ends.append(beyond[-1][1] if beyond else end)
        yield _Stretch(tuple(cables), tuple(ends), path)


def _beyond(
    port: PortRef, path: EarthPath | None, paths: Mapping[str, EarthPath], facts: Facts, seen: set[str]
) -> Iterator[tuple[Cable, PortRef]]:
    """The cables of one kind beyond a port and where each leads, through passive ports that are in no known place."""
    while facts.plan.devices[port.device].passive and _building(port, facts.plan) is None:
        plugged = facts.topology.cabling.cables_at[port]
        other = next((one for one in plugged if one.name not in seen and paths.get(one.name) == path), None)
        if other is None:
            return
        seen.add(other.name)
        port = other.to_ports[0] if other.from_port == port else other.from_port
        yield other, port


def _paths(facts: Facts) -> dict[str, EarthPath]:
    """What each cable is to earths, by its category, or else by the medium of the link that it is part of."""
    kinds = {
        name: _KIND_OF_MEDIUM[link.carrier.medium]
        for link in facts.topology.links
        if link.carrier is not None and link.carrier.medium in _KIND_OF_MEDIUM
        for name in link.cables
    }
    for cable in facts.plan.cables.values():
        if cable.category != "unknown":
            kinds[cable.name] = _KIND.get(cable.category, cable.category)
    return {name: earth_paths()[kind] for name, kind in kinds.items()}


def _building(port: PortRef, plan: Plan) -> str | None:
    """The building in whose room, or in whose rack, the device of a port stands."""
    device = plan.devices[port.device]
    room = device.room
    if room is None and device.rack is not None:
        room = plan.racks[device.rack.rack].room
    known = plan.rooms.get(room or "")
    return None if known is None else known.building


def _judge(stretch: _Stretch, facts: Facts) -> Judgement:
    homes = {end: _building(end, facts.plan) for end in stretch.ends}
    known = list(dict.fromkeys(home for home in homes.values() if home is not None))
    names = listed(stretch.cables)
    if len(known) > 1:
        return _joined(stretch, known)
    homeless = [end.device for end, home in homes.items() if home is None]
    if not known or not homeless or stretch.path is None:
        return None
    return EARTHS_JOINED.not_checked(
        cable_place(stretch.cables[0].name),
        reason=f"The building in which {homeless[0]} stands is not given",
        decides=f"write down `room` of {homeless[0]}: outside {known[0]}, {names} would join two earths",
    )


def _joined(stretch: _Stretch, buildings: list[str]) -> Judgement:
    names = listed(stretch.cables)
    first = stretch.cables[0]
    if stretch.path is None:
        return EARTHS_JOINED.not_checked(
            cable_place(first.name),
            reason=f"What {names} {are(stretch.cables)} made of is not given",
            decides=f"write down `category` of {first.name}: between {listed(buildings)} only fibre keeps earths apart",
        )
    ends = listed(dict.fromkeys(end.device for end in stretch.ends))
    return EARTHS_JOINED.finding(
        *(cable_place(cable.name) for cable in stretch.cables),
        message=f"{names}, of copper, joins {ends}, which stand in {len(buildings)} buildings: {listed(buildings)}",
        remedy=f"Lay fibre between {listed(buildings)}, with modules for it at both ends: lightning and fault currents "
        "take copper from one earth to the other. Leave earthing and surge protection to a licensed electrician and "
        "the local code.",
        source=stretch.path.source,
    )


def _sources() -> tuple[Citation, ...]:
    return tuple(dict.fromkeys(path.source for path in earth_paths().values()))


EARTHS_JOINED = Rule(
    name="earths-joined",
    family="cabling",
    severity="warn",
    subjects=_stretches,
    judge=_judge,
    what="A cable with copper in it between two buildings, each of which has an earth of its own.",
    why="The two earths are never quite alike: currents flow along the cable, and lightning near one building "
    "can reach people and machines in the other.",
    todo="Use fibre between buildings, and leave earthing to a licensed electrician and the local code.",
    sources=_sources,
)
