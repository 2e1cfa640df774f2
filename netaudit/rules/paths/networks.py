"""The rule of paths on networks: do the two ends of a cable speak of the same ones, in the same manner."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.place import PortRef, cable_place, network_place, port_place
from netaudit.model.plan import Station, Storage
from netaudit.network.forwarding import Carried
from netaudit.network.links import Link
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule


class Misfit(NamedTuple):
    """What two ends of a cable do not have in common."""

    reason: str
    """A clause."""
    remedy: str


def named(own: Carried) -> frozenset[str]:
    """The networks that a port names."""
    return own.tagged if own.untagged is None else own.tagged | {own.untagged}


def crossed(port: PortRef, other: PortRef, facts: Facts) -> Misfit | None:
    """Two ends that both name networks, and none of them twice."""
    carried = facts.topology.forwarding.carried
    near, far = named(carried[port]), named(carried[other])
    if not near or not far or near & far:
        return None
    return Misfit(
        f"{port} is in {listed(sorted(near))} and {other}, at the other end of its cable, in {listed(sorted(far))}",
        f"Put {port} and {other} into one network.",
    )


def dropped(port: PortRef, other: PortRef, networks: Iterable[str], facts: Facts) -> Misfit | None:
    """The first of some networks that one end passes and the other not, or not in the same manner."""
    one, end = (facts.topology.forwarding.carried[each] for each in (port, other))
    for network in networks:
        if network in named(one) and (not end.passes(network) or one.tags(network) != end.tags(network)):
            how = "tagged" if one.tags(network) else "untagged"
            return Misfit(
                f"{port} carries {network} {how}, and {other}, at the other end of its cable, does not",
                f"Let {other} carry {network} {how}, or {port} as {other} does.",
            )
    return None


def _mixed(port: PortRef, other: PortRef, facts: Facts) -> Misfit | None:
    """Two ends whose frames without a tag belong to different networks."""
    near, far = (facts.topology.forwarding.carried[each].untagged for each in (port, other))
    if near is None or far is None or near == far:
        return None
    return Misfit(
        f"What {port} sends without a tag is {near}, and {other}, at the other end of its cable, takes it for {far}",
        f"Give {port} and {other} the same untagged network.",
    )


def _bare(port: PortRef, other: PortRef, facts: Facts) -> Misfit | None:
    """An end that sends everything with a tag, and one that names no network and so reads no tags."""
    for tagging, plain in ((port, other), (other, port)):
        one, end = (facts.topology.forwarding.carried[each] for each in (tagging, plain))
        if end.any and _tags_all(one):
            return Misfit(
                f"{tagging} carries {listed(sorted(one.tagged))} tagged, and {plain}, at the other end of its cable, "
                "names no network and so passes frames without a tag only",
                f"Write down `networks` of {plain} with {listed(sorted(one.tagged))} tagged, or let {tagging} carry "
                "one of them untagged.",
            )
    return None


def _wired_links(facts: Facts) -> Iterable[Link]:
    """The wired links whose two ends both name networks, or of which one sends everything with a tag."""
    carried = facts.topology.forwarding.carried
    for link in facts.topology.links:
        near, far = carried[link.near], carried[link.far]
        named_twice = not near.any and not far.any
        if link.channel is not None and (named_twice or _tags_all(near) or _tags_all(far)):
            yield link


def _tags_all(own: Carried) -> bool:
    """Whether a port sends no frame without a tag."""
    return bool(own.tagged) and own.untagged is None


def _judge(link: Link, facts: Facts) -> Judgement:
    ends = sorted((link.near, link.far), key=lambda end: not _is_end(end, facts))
    port, other = ends
    one, end = (facts.topology.forwarding.carried[each] for each in ends)
    common = sorted(named(one) & named(end))
    misfit = crossed(port, other, facts)
    if misfit is None and all(one.tags(network) != end.tags(network) for network in common):
        misfit = dropped(port, other, common, facts)
    misfit = misfit or _mixed(port, other, facts) or _bare(port, other, facts)
    if misfit is None:
        return None
    return WRONG_NETWORK.finding(
        *map(port_place, ends),
        *map(cable_place, link.cables),
        *(network_place(own.untagged) for own in (one, end) if own.untagged is not None),
        message=misfit.reason,
        remedy=misfit.remedy,
        source=PLAN,
    )


def _is_end(port: PortRef, facts: Facts) -> bool:
    return isinstance(facts.plan.devices[port.device], Station | Storage)


WRONG_NETWORK = Rule(
    name="wrong-network",
    family="paths",
    severity="fail",
    subjects=_wired_links,
    judge=_judge,
    what="A cable whose two ends are in different networks, or pass the same one in different manners.",
    why="Both lights are green and nothing gets through, or frames come out in a network they are not meant for.",
    todo="Put both ports into the same network: untagged at both ends, or tagged at both.",
)
