"""The rule of paths on rates: is each seat promised what it wants."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.calculations.buses import usable_bit_per_s
from netaudit.citation import PLAN, Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure, NotChecked
from netaudit.model.path import Path
from netaudit.model.place import Place, PortRef, bus_place
from netaudit.model.plan import Plan
from netaudit.network.links import Link
from netaudit.rules.facts import Facts
from netaudit.rules.hosts import bus_text, wider_bus
from netaudit.rules.paths.networks import named
from netaudit.rules.paths.promises import lacking, links_of, promise_sources, source_of, widened
from netaudit.rules.remedies import held_back_by
from netaudit.rules.rule import Rule
from netaudit.standards.buses import host_buses, host_cables
from netaudit.units import both_rates_text

TOLERATED_SHORTFALL = 0.1
"""A promise this much under the wanted rate still counts as kept [share]: a bus just under its link is no fault."""


class Target(NamedTuple):
    """A planned path with the rate it must be promised."""

    path: Path
    wants_bit_per_s: int | None
    """None where the seat names none; a road must be promised some rate even so."""

    @property
    def floor_bit_per_s(self) -> float:
        """The least promise that counts as kept [bit/s]."""
        return 1 if self.wants_bit_per_s is None else (1 - TOLERATED_SHORTFALL) * self.wants_bit_per_s


class _Stretch(NamedTuple):
    """One thing on a road that bounds it: a link, or the bus at an end."""

    place: Place
    least_bit_per_s: int
    most_bit_per_s: int | None
    """None where nothing is known to bound it."""
    source: Citation
    link: Link | None
    port: PortRef | None

    def below(self, floor_bit_per_s: float) -> bool:
        """Whether it gives less whatever is unknown."""
        return self.most_bit_per_s is not None and self.most_bit_per_s < floor_bit_per_s


def _targets(facts: Facts) -> Iterable[Target]:
    """The planned paths of the seats that want a rate, and those that no rate is promised over."""
    for path in facts.planned:
        wants = facts.station(path).wants_bit_per_s
        if path.hops and (wants is not None or path.at_least_bit_per_s == 0):
            yield Target(path, wants)


def _judge(target: Target, facts: Facts) -> Judgement:
    floor = target.floor_bit_per_s
    stretches = list(_stretches(target.path, facts))
    short = sorted((one for one in stretches if one.below(floor)), key=lambda one: one.most_bit_per_s or 0)
    if short:
        narrowest = short[0]
        most = narrowest.most_bit_per_s or 0
        wants = target.wants_bit_per_s
        widened_all = (_widen(one, target, facts) for one in short[:3])
        return PATH_BELOW_TARGET.finding(
            target.path.place,
            *(one.place for one in short),
            message=f"{_lead(target, narrowest)}, because {_reason(narrowest, facts.plan)}",
            remedy=" ".join(dict.fromkeys((*_round_the_router(target.path, facts), *widened_all))),
            source=narrowest.source,
            measured=Measure(most, "bit/s"),
            limit=None if wants is None else Measure(wants, "bit/s"),
        )
    still_open = [one for one in stretches if one.least_bit_per_s < floor]
    return _not_checked(target.path, still_open[0], facts) if still_open else None


def _lead(target: Target, narrowest: _Stretch) -> str:
    path, wants, most = target.path, target.wants_bit_per_s, narrowest.most_bit_per_s
    if wants is None:
        return f"{path.station} is promised no rate on its road to {path.storage}"
    word = "is promised" if narrowest.least_bit_per_s == most else "never has more than"
    given = both_rates_text(most) if most else "no rate at all"
    holds = "is not assured" if _may_work(narrowest) else "will not hold"
    return f"{path.station} {holds} {both_rates_text(wants)}: its road to {path.storage} {word} {given}"


def _may_work(stretch: _Stretch) -> bool:
    """Whether its ports agree on more, which may well run though nothing promises it."""
    link = stretch.link
    agreed = None if link is None else link.agreed_bit_per_s
    if link is None or link.carrier is None or agreed is None:
        return False
    return link.carrier.promise(agreed).why == "reach"


def _stretches(path: Path, facts: Facts) -> Iterator[_Stretch]:
    """Everything on a road that bounds it, from the seat to the storage."""
    yield from _bus(path.from_port, facts.plan)
    for link in links_of(path, facts):
        promised = facts.topology.promised(link)
        yield _Stretch(link.place, promised.least_bit_per_s, promised.most_bit_per_s, source_of(link), link, None)
    yield from _bus(path.to_port, facts.plan)


def _bus(port: PortRef | None, plan: Plan) -> Iterator[_Stretch]:
    """The bus behind a port, where the plan gives one; one in no table is open up to its signalling rate."""
    own = plan.devices[port.device].ports[port.port] if port is not None else None
    bus = None if own is None else own.bus
    if port is None or own is None or bus is None:
        return
    usable = usable_bit_per_s(bus, own.host_cable)
    if usable is None:
        yield _Stretch(bus_place(port), 0, bus.rate_bit_per_s, PLAN, None, port)
    else:
        yield _Stretch(bus_place(port), usable.rate_bit_per_s, usable.rate_bit_per_s, usable.source, None, port)


def _reason(stretch: _Stretch, plan: Plan) -> str:
    """Why a stretch gives no more, as a clause."""
    if stretch.port is not None:
        return f"{stretch.port} hangs on {bus_text(plan.devices[stretch.port.device].ports[stretch.port.port])}"
    link = stretch.link
    if link is None or link.channel is None:
        return "it goes through the air"
    fastest = link.fastest_bit_per_s
    if fastest is not None and fastest > (stretch.most_bit_per_s or 0):
        return held_back_by(link, plan)
    return f"{link.near} and {link.far} agree on no more"


def _round_the_router(path: Path, facts: Facts) -> Iterator[str]:
    """The step that spares a road its router."""
    if path.routed and path.to_port is not None:
        networks = sorted(named(facts.topology.forwarding.carried[path.to_port]))
        where = f"in {listed(networks)}, the network of {path.to_port}" if networks else f"beside {path.to_port}"
        yield f"Its road leads through a router: give {path.station} a port {where}."


def _widen(stretch: _Stretch, target: Target, facts: Facts) -> str:
    """The step that would bring one stretch to the wanted rate."""
    wants = target.wants_bit_per_s or 0
    if stretch.port is not None:
        return wider_bus(stretch.port, facts.port(stretch.port), wants, target.floor_bit_per_s)
    link = stretch.link
    if link is None or link.channel is None:
        return f"Plug {target.path.station} in by cable: a radio is promised no rate."
    return widened(link, wants, target.floor_bit_per_s, facts)


def _not_checked(path: Path, stretch: _Stretch, facts: Facts) -> NotChecked:
    link = stretch.link
    if link is None:
        port = stretch.port
        bus = None if port is None else bus_text(facts.port(port))
        reason = f"What {bus} behind {port} carries is in no table"
        return PATH_BELOW_TARGET.not_checked(
            path.place, stretch.place, reason=reason, decides="read it in the computer's data sheet, or measure there"
        )
    missing = lacking(link, facts)
    return PATH_BELOW_TARGET.not_checked(path.place, missing.where, reason=missing.reason, decides=missing.decides)


def _sources() -> Iterator[Citation]:
    yield from promise_sources()
    buses = (bus.source for bus in host_buses().values())
    yield from dict.fromkeys((*buses, *(one.source for each in host_cables().values() for one in each)))


PATH_BELOW_TARGET = Rule(
    name="path-below-target",
    family="paths",
    severity="fail",
    subjects=_targets,
    judge=_judge,
    what="A seat whose road to its storage is promised over a tenth less than the rate it wants, or no rate at all.",
    why="The narrowest thing on the road decides, however fast the rest is.",
    todo="Widen the place that is named; nothing else on the road helps.",
    sources=_sources,
)
