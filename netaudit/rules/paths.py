"""Rules about paths: does each seat reach its storage, at the rate it is meant to have, and without a ring."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.calculations.buses import usable_bit_per_s
from netaudit.citation import PLAN, Citation
from netaudit.model.finding import Judgement, Measure, NotChecked
from netaudit.model.path import Path
from netaudit.model.place import Place, PortRef, bus_place, cable_place, port_place
from netaudit.model.plan import Device, Plan
from netaudit.network.links import Link
from netaudit.network.loops import Loop
from netaudit.rules.facts import Facts
from netaudit.rules.remedies import better_cabling, free_port, held_back_by, listed, missing_fact
from netaudit.rules.rule import Rule
from netaudit.units import both_rates_text

TOLERATED_SHORTFALL = 0.1
"""A promise this much under the wanted rate still counts as kept [share]: a bus just under its link is no fault."""


class _Stretch(NamedTuple):
    """One thing on a road that bounds it: a link, or the bus at an end."""

    place: Place
    least_bit_per_s: int
    most_bit_per_s: float
    """Infinite where nothing is known to bound it."""
    source: Citation
    link: Link | None
    port: PortRef | None


def _wanted_paths(facts: Facts) -> Iterable[tuple[Path, int]]:
    """The planned paths of the seats that want a rate, with that rate [bit/s]."""
    for path in facts.planned:
        wants = facts.station(path).wants_bit_per_s
        if path.hops and wants is not None:
            yield path, wants


def _judge_target(subject: tuple[Path, int], facts: Facts) -> Judgement:
    path, wants = subject
    floor = (1 - TOLERATED_SHORTFALL) * wants
    at_least, at_most = path.at_least_bit_per_s, path.at_most_bit_per_s
    stretches = list(_stretches(path, facts))
    short = sorted((one for one in stretches if one.most_bit_per_s < floor), key=lambda one: one.most_bit_per_s)
    if short:
        narrowest = short[0]
        most = int(narrowest.most_bit_per_s)
        word = "is promised" if narrowest.least_bit_per_s == most else "never has more than"
        return PATH_BELOW_TARGET.finding(
            path.place,
            *(one.place for one in short),
            message=f"{path.station} will not hold {both_rates_text(wants)}: its road to {path.storage} "
            f"{word} {both_rates_text(most) if most else 'no rate at all'}, because {_reason(narrowest, facts.plan)}",
            remedy=" ".join(_widen(one, wants, facts) for one in short[:3]),
            source=narrowest.source,
            measured=Measure(most, "bit/s"),
            limit=Measure(wants, "bit/s"),
        )
    if at_most is not None and at_most >= floor and at_least >= floor:
        return None
    return _target_not_checked(path, [one for one in stretches if one.least_bit_per_s < floor], facts)


def _stretches(path: Path, facts: Facts) -> Iterator[_Stretch]:
    """Everything on a road that bounds it, from the seat to the storage."""
    yield from _bus(path.from_port, facts.plan)
    for hop in path.hops:
        link = facts.link_between[frozenset((hop.from_port, hop.to_port))]
        promised = facts.topology.promised(link)
        most = float("inf") if promised.most_bit_per_s is None else float(promised.most_bit_per_s)
        yield _Stretch(link.place, promised.least_bit_per_s, most, _source(link), link, None)
    yield from _bus(path.to_port, facts.plan)


def _source(link: Link) -> Citation:
    """What holds a link below the rate that its ports agree on; the plan itself where nothing published does."""
    agreed = link.agreed_bit_per_s
    if link.carrier is None or agreed is None or link.promised.most_bit_per_s == agreed:
        return PLAN
    return link.carrier.promise(agreed).source or PLAN


def _bus(port: PortRef | None, plan: Plan) -> Iterator[_Stretch]:
    bus = plan.devices[port.device].ports[port.port].bus if port is not None else None
    usable = usable_bit_per_s(bus) if bus is not None else None
    if port is not None and usable is not None:
        rate = usable.rate_bit_per_s
        yield _Stretch(bus_place(port), rate, float(rate), usable.source, None, port)


def _reason(stretch: _Stretch, plan: Plan) -> str:
    """Why a stretch gives no more, as a clause."""
    if stretch.port is not None:
        bus = plan.devices[stretch.port.device].ports[stretch.port.port].bus
        return f"{stretch.port} hangs on {bus}"
    link = stretch.link
    if link is None or link.channel is None:
        return "it goes through the air"
    if link.agreed_bit_per_s is not None and link.agreed_bit_per_s > stretch.most_bit_per_s:
        return held_back_by(link, plan)
    return f"{link.near} and {link.far} agree on no more"


def _widen(stretch: _Stretch, wants: int, facts: Facts) -> str:
    """The step that would bring one stretch to the wanted rate."""
    if stretch.port is not None:
        return f"Give {stretch.port} a bus that carries {both_rates_text(wants)}."
    link = stretch.link
    if link is None or link.channel is None:
        return f"Reach {stretch.place.name.split(' - ')[-1].split('/')[0]} by cable: a radio is promised no rate."
    agreed = link.agreed_bit_per_s or 0
    if agreed >= (1 - TOLERATED_SHORTFALL) * wants:
        return f"The ports would run {both_rates_text(agreed)}. {better_cabling(link, facts.plan)}"
    return _faster_ports(link, wants, facts)


def _faster_ports(link: Link, wants: int, facts: Facts) -> str:
    steps = []
    for port, rates in ((link.near, link.near_rates), (link.far, link.far_rates)):
        if rates and rates[0] < (1 - TOLERATED_SHORTFALL) * wants:
            free = free_port(facts, port, (wants,))
            where = f"{free}, which is free and does" if free else "a port or a module that does"
            steps.append(f"{port} runs at most {both_rates_text(rates[0])}: use {where}.")
    return " ".join(steps) or (
        f"{link.near} and {link.far} agree on {both_rates_text(link.agreed_bit_per_s or 0)} only: "
        f"use ports that have {both_rates_text(wants)} in common."
    )


def _target_not_checked(path: Path, open_stretches: list[_Stretch], facts: Facts) -> NotChecked:
    stretch = next(one for one in open_stretches if one.link is not None)
    link = stretch.link
    assert link is not None  # noqa: S101 - chosen for it
    loop = next((loop for loop in facts.topology.loops if link in loop.links), None)
    if loop is not None and link.promised.bit_per_s is not None:
        return PATH_BELOW_TARGET.not_checked(
            path.place,
            stretch.place,
            reason=f"The road crosses the ring of {listed(loop.devices)}, whose links are not equally fast, "
            "and it is open which of them the spanning tree blocks",
            decides="bond the links, make them equally fast, or take one out",
        )
    missing = missing_fact(link, facts.plan)
    return PATH_BELOW_TARGET.not_checked(path.place, missing.where, reason=missing.reason, decides=missing.decides)


PATH_BELOW_TARGET = Rule(
    name="path-below-target",
    family="paths",
    severity="fail",
    subjects=_wanted_paths,
    judge=_judge_target,
    what="A seat whose road to its storage is promised more than a tenth less than the rate it wants.",
    why="The narrowest thing on the road decides, however fast the rest is.",
    todo="Widen the place that is named; nothing else on the road helps.",
)


def _planned_paths(facts: Facts) -> Iterable[Path]:
    return facts.planned


def _judge_road(path: Path, facts: Facts) -> Judgement:
    if path.hops:
        return _judge_network_of_ends(path, facts)
    reason, remedy = _why_no_road(facts, facts.plan.devices[path.station], facts.plan.devices[path.storage])
    return NO_PATH.finding(
        path.place, message=f"No road leads from {path.station} to {path.storage}: {reason}", remedy=remedy, source=PLAN
    )


def _judge_network_of_ends(path: Path, facts: Facts) -> NotChecked | None:
    """A road whose ends name their networks is a pass; one that leaves that open is not, in a plan with networks."""
    if not facts.plan.networks:
        return None
    for port in (path.from_port, path.to_port):
        if port is not None and facts.topology.forwarding.carried[port].any:
            return NO_PATH.not_checked(
                path.place,
                port_place(port),
                reason=f"The network of {port} is not given",
                decides=f"write down `network` of {port}: the road is there if both ends are in one network",
            )
    return None


def _why_no_road(facts: Facts, station: Device, storage: Device) -> tuple[str, str]:
    """The first thing that is missing between a seat and its storage, and the step that mends it."""
    for device, word in ((station, "leaves"), (storage, "reaches")):
        ports = [PortRef(device.name, name) for name, port in device.ports.items() if port.serves]
        if not any(port in facts.topology.forwarding.ways for port in ports):
            return _unlinked(facts, device, ports, word)
    near, far = _networks(facts, station), _networks(facts, storage)
    if near and far and not near & far:
        return (
            f"{station.name} is in {listed(sorted(near))}, {storage.name} serves in {listed(sorted(far))}, "
            "and no router that is the gateway of both joins them",
            f"Give {station.name} a port in {listed(sorted(far))}.",
        )
    return (
        f"{_islands(facts, station)} and {_islands(facts, storage)} are not joined"
        + (f" in {listed(sorted(near & far))}" if near & far else ""),
        "Join them with a cable between ports of that network.",
    )


def _unlinked(facts: Facts, device: Device, ports: list[PortRef], word: str) -> tuple[str, str]:
    cabling = facts.topology.cabling
    for port in ports:
        if port in cabling.dead_ends:
            stop = cabling.dead_ends[port]
            return f"the cables from {port} stop at {stop}", f"Plug a cable into {stop} that leads on."
    for link in facts.topology.links:
        if not link.runs and device.name in (link.near.device, link.far.device):
            return (
                f"{link.near} and {link.far} have no rate in common",
                "Give them ports or modules with a rate in common.",
            )
    return (
        f"no cable {word} {device.name}" if ports else f"{device.name} has no port for it",
        f"Run a cable from {device.name} to a switch." if ports else f"Give {device.name} a port.",
    )


def _networks(facts: Facts, device: Device) -> set[str]:
    """The networks that the linked ports of a device name."""
    carried = facts.topology.forwarding.carried
    found: set[str] = set()
    for name, port in device.ports.items():
        ref = PortRef(device.name, name)
        if port.serves and ref in facts.topology.forwarding.ways:
            own = carried[ref]
            found.update(own.tagged, () if own.untagged is None else (own.untagged,))
    return found


def _islands(facts: Facts, device: Device) -> str:
    """A device with what it is plugged into, in words."""
    beyond = {
        edge.in_port.device
        for name in device.ports
        for edge in facts.topology.forwarding.ways.get(PortRef(device.name, name), ())
    }
    return f"{device.name} (plugged into {listed(sorted(beyond))})"


NO_PATH = Rule(
    name="no-path",
    family="paths",
    severity="fail",
    subjects=_planned_paths,
    judge=_judge_road,
    what="A seat that cannot reach a storage it edits from, by any cable, switch, radio or router of the plan.",
    why="The share never appears on that desk.",
    todo="Close the gap that is named: a missing cable, a missing network, or ports that never link.",
)


def _loops(facts: Facts) -> Iterable[Loop]:
    return facts.topology.loops


def _judge_loop(loop: Loop, facts: Facts) -> Judgement:
    if not loop.unprotected:
        return None
    others = [name for name in loop.devices if name not in loop.unprotected]
    cables = [cable for link in loop.links if link.channel is not None for cable in link.channel.cables]
    named = [network for network in loop.networks if network is not None]
    ring = f"A cord leads from {loop.devices[0]} back into itself" if len(loop.devices) == 1 else (
        f"Frames can run in a ring through {listed(loop.devices)}"
    )  # fmt: skip
    where = f" in {listed(named)}" if named else ""
    return LOOP_UNPROTECTED.finding(
        *(Place("device", name) for name in (*loop.unprotected, *others)),
        *(link.place for link in loop.links),
        *(cable_place(cable.name) for cable in cables),
        message=f"{ring}{where}, and {listed(loop.unprotected)} "
        f"{'does' if len(loop.unprotected) == 1 else 'do'} not run a spanning tree",
        remedy=f"Take out {listed(cables[:1]) if cables else loop.links[0].place}, bond the links if both ends can, "
        f"or switch the spanning tree on in {listed(loop.unprotected)} and say so with `spanning_tree: true`.",
        source=PLAN,
    )


LOOP_UNPROTECTED = Rule(
    name="loop-unprotected",
    family="paths",
    severity="fail",
    subjects=_loops,
    judge=_judge_loop,
    what="A ring of switches, access points or bridging computers in one network, not all running a spanning tree.",
    why="One broadcast frame then runs round for ever, and every seat stops at once.",
    todo="Break the ring, bond the links, or run a spanning tree on every device of it.",
)
