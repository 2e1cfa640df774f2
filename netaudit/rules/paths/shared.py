"""The rule of paths on sharing: do several seats cross a link that is promised less than their own links together."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import NamedTuple

from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import PortRef, cable_place, port_place
from netaudit.network.forwarding import bond_of
from netaudit.network.links import Link
from netaudit.rules.facts import Facts
from netaudit.rules.paths.promises import lacking, links_of, most_of, promise_sources, source_of
from netaudit.rules.rule import Rule
from netaudit.units import both_rates_text


class Shared(NamedTuple):
    """A wired link that the planned paths of several seats cross."""

    link: Link
    bundle: tuple[Link, ...]
    """It and those that are bonded with it: they never carry more than all together."""
    own: Mapping[str, Collection[Link]]
    """Seat to its own links, over which its planned paths to this one begin."""


def _shared_links(facts: Facts) -> Iterator[Shared]:
    links: dict[int, Link] = {}
    crossing: dict[int, dict[str, dict[int, Link]]] = {}
    for path in facts.planned:
        crossed = links_of(path, facts)
        for link in crossed:
            links[id(link)] = link
            crossing.setdefault(id(link), {}).setdefault(path.station, {})[id(crossed[0])] = crossed[0]
    bundles = _bundles(facts)
    for key, seats in crossing.items():
        link = links[key]
        if len(seats) > 1 and link.channel is not None:
            bundle = bundles.get(_bonds(link, facts), (link,))
            yield Shared(link, tuple(bundle), {seat: own.values() for seat, own in seats.items()})


def _bundles(facts: Facts) -> Mapping[frozenset[PortRef] | None, list[Link]]:
    """The links between each two bonds."""
    bundles: dict[frozenset[PortRef] | None, list[Link]] = {}
    for link in facts.topology.links:
        bonds = _bonds(link, facts)
        if bonds is not None and link.runs:
            bundles.setdefault(bonds, []).append(link)
    return bundles


def _bonds(link: Link, facts: Facts) -> frozenset[PortRef] | None:
    """The two bonds that a link joins; None if an end of it is not bonded."""
    near, far = (
        PortRef(end.device, bond)
        if (bond := bond_of(facts.plan.devices[end.device]).get(end.port)) is not None
        else None
        for end in (link.near, link.far)
    )
    return None if near is None or far is None else frozenset((near, far))


def _judge_shared(shared: Shared, facts: Facts) -> Judgement:
    """A link that is promised no rate at all is nobody's share: its paths fall short anyway."""
    link = shared.link
    own = [each for links in shared.own.values() for each in links]
    rates = [_own_rate(each, facts) for each in own]
    together = sum(rate for rate in rates if rate is not None)
    bundle = [facts.topology.promised(each) for each in shared.bundle]
    given = sum(map(most_of, bundle))
    if given == 0:
        return None
    if together > given:
        at_least = "at least " if None in rates else ""
        it = "it is" if len(bundle) == 1 else f"the {len(bundle)} links bonded there are"
        return SHARED_BEYOND_SEAT.finding(
            *map(port_place, (link.near, link.far)),
            *map(cable_place, link.cables),
            message=f"{listed(shared.own)} share {link.near} to {link.far}: their own links add up to {at_least}"
            f"{both_rates_text(together)}, and {it} promised {both_rates_text(given)}",
            remedy="This is fine as long as they take turns. When all read at once, each gets about "
            f"{both_rates_text(given / len(shared.own))} through it: if that is too little, use a faster link there, "
            "or give some of them another way to the storage.",
            source=source_of(link),
            measured=Measure(together, "bit/s"),
            limit=Measure(given, "bit/s"),
        )
    unknown = next((each for each, rate in zip(own, rates, strict=True) if rate is None), None)
    if unknown is None and together <= sum(each.least_bit_per_s for each in bundle):
        return None
    missing = lacking(link if unknown is None else unknown, facts)
    return SHARED_BEYOND_SEAT.not_checked(missing.where, reason=missing.reason, decides=missing.decides)


def _own_rate(link: Link, facts: Facts) -> int | None:
    """What a seat may draw over its own link: what it is promised, or else what its ports agree on [bit/s]."""
    promised = facts.topology.promised(link).bit_per_s
    return link.agreed_bit_per_s if promised is None else promised


SHARED_BEYOND_SEAT = Rule(
    name="shared-beyond-seat",
    family="paths",
    severity="note",
    subjects=_shared_links,
    judge=_judge_shared,
    what="A link that the roads of several seats cross, promised less than their own links together.",
    why="Each desk shows its own fast link, and when all read at once each gets a part of the one they share.",
    todo="Nothing while the seats take turns; otherwise a faster link there, or fewer seats on it.",
    sources=promise_sources,
)
