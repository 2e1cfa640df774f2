"""The rule of paths on spanning trees: does the tree keep a fast link closed and send frames over a slow one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import replace
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.path import Path
from netaudit.model.place import cable_place, port_place
from netaudit.model.plan import Switch
from netaudit.network.forwarding import Edge
from netaudit.network.links import Link
from netaudit.network.tree import Blocked, OpenMesh, find_tree
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import undecided_tree
from netaudit.rules.paths.promises import links_of
from netaudit.rules.rule import Rule
from netaudit.standards.trees import default_priority, tree_costs
from netaudit.units import both_rates_text

_FIRST_PRIORITY = 4096
"""A priority that makes a switch the root beside others that nobody set: the first step above 0."""


class Closed(NamedTuple):
    """A link that the tree blocks, with the traffic of the whole plan."""

    blocked: Blocked
    crossed: Mapping[int, Set[str | None]]
    """Each link on a planned path, by identity, to the networks of those paths."""


class OpenRoad(NamedTuple):
    """A planned path through rings in which it is open what the tree blocks."""

    path: Path
    mesh: OpenMesh


def _subjects(facts: Facts) -> Iterable[Closed | OpenRoad]:
    tree = facts.topology.tree
    crossed: dict[int, set[str | None]] = {}
    for path in facts.planned if tree.blocked else ():
        for link in links_of(path, facts):
            crossed.setdefault(id(link), set()).add(path.network)
    yield from (Closed(blocked, crossed) for blocked in tree.blocked)
    mesh_of = {id(link): mesh for mesh in tree.open for link in mesh.links}
    for path in facts.planned if mesh_of else ():
        meshes = (mesh_of.get(id(link)) for link in links_of(path, facts))
        yield from (OpenRoad(path, mesh) for mesh in {id(mesh): mesh for mesh in meshes if mesh is not None}.values())


def _judge(subject: Closed | OpenRoad, facts: Facts) -> Judgement:
    if isinstance(subject, OpenRoad):
        return _judge_open(subject)
    link, detour = subject.blocked.link, subject.blocked.detour
    closed = link.agreed_bit_per_s
    slow = min(detour, key=lambda link: link.agreed_bit_per_s or 0, default=None)
    around = None if slow is None else slow.agreed_bit_per_s
    if slow is None or closed is None or around is None or not _used(subject, closed, facts):
        return None
    return FAST_LINK_BLOCKED.finding(
        *map(port_place, (link.near, link.far)),
        *map(cable_place, link.cables),
        *(other.place for other in detour),
        message=f"The spanning tree blocks {link.near} to {link.far}, {both_rates_text(closed)}, "
        f"and frames go over {slow.near} to {slow.far} at {both_rates_text(around)}",
        remedy=_remedy(link, slow, facts),
        source=_source(closed),
        measured=Measure(around, "bit/s"),
        limit=Measure(closed, "bit/s"),
    )


def _judge_open(road: OpenRoad) -> Judgement:
    """Where every link of the rings is equally fast it does not matter which of them is blocked."""
    rates = {link.agreed_bit_per_s for link in road.mesh.links}
    if len(rates) == 1 and None not in rates:
        return None
    missing = undecided_tree(road.mesh)
    return FAST_LINK_BLOCKED.not_checked(road.path.place, missing.where, reason=missing.reason, decides=missing.decides)


def _used(closed: Closed, closed_bit_per_s: int, facts: Facts) -> bool:
    """Whether a planned path crosses a link of the detour that is slower than the closed one, which would carry it."""
    link = closed.blocked.link
    slower = (other for other in closed.blocked.detour if (other.agreed_bit_per_s or 0) < closed_bit_per_s)
    networks = {network for other in slower for network in closed.crossed.get(id(other), ())}
    way = Edge(link, link.near, link.far, None)
    return any(facts.topology.forwarding.passes(way, network) for network in networks)


def _remedy(blocked: Link, slow: Link, facts: Facts) -> str:
    """The switch that opens the link as the root, or else the slow link taken out."""
    for name in dict.fromkeys((blocked.near.device, blocked.far.device)):
        if _opens(blocked, name, facts):
            return (
                f"Make {name} the root: set its bridge priority to {_FIRST_PRIORITY} "
                f"and write down `priority: {_FIRST_PRIORITY}`; the other switches keep {default_priority().count}."
            )
    return f"Take out {listed(slow.cables) if slow.cables else slow.place}: then the tree has no slower way to prefer."


def _opens(link: Link, root: str, facts: Facts) -> bool:
    """Whether a link is open once a switch is the root."""
    plan = facts.plan
    switch = plan.devices[root]
    if not isinstance(switch, Switch):
        return False
    changed = replace(plan, devices={**plan.devices, root: replace(switch, priority=_FIRST_PRIORITY)})
    tree = find_tree(changed, facts.topology.forwarding)
    closed = [one.link for one in tree.blocked]
    return link not in closed and not any(link in mesh.links for mesh in tree.open)


def _source(rate_bit_per_s: int) -> Citation:
    """Where the cost of a link at a rate [bit/s] comes from, which is what made the tree prefer another."""
    row = tree_costs().get(rate_bit_per_s)
    return default_priority().source if row is None else row.long.source


def _sources() -> Iterator[Citation]:
    yield default_priority().source
    yield from dict.fromkeys(
        figure.source for row in tree_costs().values() for figure in (row.long, row.short) if figure is not None
    )


FAST_LINK_BLOCKED = Rule(
    name="fast-link-blocked",
    family="paths",
    severity="warn",
    subjects=_subjects,
    judge=_judge,
    what="A spanning tree that blocks a fast link of a ring while seats reach their storage over a slower one.",
    why="The tree looks from its root, and nobody chose the root: often the oldest switch wins, and 10 Gb/s lie idle.",
    todo="Set the bridge priority of the switch in the middle of the fast links lower than that of all others.",
    sources=_sources,
)
