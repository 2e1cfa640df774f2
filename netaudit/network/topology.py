"""The topology of a plan: everything that follows from its cables, built once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from netaudit.model.path import Path
from netaudit.model.plan import Plan
from netaudit.network.channels import Cabling, find_channels
from netaudit.network.forwarding import Edge, Forwarding, forwarding
from netaudit.network.links import Link, Promised, wired_link
from netaudit.network.loops import Loop, find_loops
from netaudit.network.paths import PathMaker
from netaudit.network.radio import radio_links
from netaudit.network.roads import find_wants
from netaudit.network.routers import find_routers
from netaudit.network.tree import OpenMesh, Tree, find_tree


@dataclass(frozen=True, slots=True)
class Topology:
    """The graph of a plan."""

    cabling: Cabling
    links: tuple[Link, ...]
    """Wired links in file order of their near ends, then radio links."""
    forwarding: Forwarding
    """Every way that frames may go as long as no spanning tree blocks it."""
    loops: tuple[Loop, ...]
    tree: Tree
    open_rates: Mapping[int, Promised]
    """What links promise between which the spanning tree is open, by identity of the link."""
    paths: tuple[Path, ...]
    """For each seat and storage the planned path first."""

    @property
    def ringed(self) -> frozenset[str]:
        """Every device that stands in a ring, whatever networks its links carry."""
        found = {device for loop in self.loops for device in loop.devices}
        found.update(device for mesh in self.tree.open for device in mesh.devices)
        for blocked in self.tree.blocked:
            found.update(end.device for link in (blocked.link, *blocked.detour) for end in (link.near, link.far))
        return frozenset(found)

    def promised(self, link: Link) -> Promised:
        """What a link promises a road over it, which may have to go another way round a ring."""
        return self.open_rates.get(id(link), link.promised)


def build_topology(plan: Plan) -> Topology:
    """Everything that follows from the cables of a plan."""
    cabling = find_channels(plan)
    wired = tuple(wired_link(plan, channel) for channel in cabling.channels)
    links = (*wired, *radio_links(plan, wired))
    graph = forwarding(plan, links)
    loops = find_loops(plan, graph)
    tree = find_tree(plan, graph)
    active = graph.without(tree.closed)
    wants = list(find_wants(plan, active, find_routers(plan, active)))
    open_rates = _open_rates(plan, graph, tree.open)
    maker = PathMaker(plan, wants, open_rates)
    paths = tuple(path for want in wants for path in maker.paths(want))
    return Topology(cabling, links, graph, loops, tree, open_rates, paths)


def _open_rates(plan: Plan, graph: Forwarding, meshes: Iterable[OpenMesh]) -> Mapping[int, Promised]:
    """What a link in a mesh promises while it is open which links of it the tree blocks.

    Frames may go round any way, so that the least and the most of all of them together bound them; and where its links
    do not carry the same networks, one of these may lose its way.
    """
    rates: dict[int, Promised] = {}
    for mesh in meshes:
        bounds = [link.promised for link in mesh.links]
        mosts = [one.most_bit_per_s for one in bounds if one.most_bit_per_s is not None]
        alike = len({_carried(plan, graph, link) for link in mesh.links}) == 1
        least = min(one.least_bit_per_s for one in bounds) if alike else 0
        around = Promised(least, max(mosts) if len(mosts) == len(bounds) else None)
        rates.update(dict.fromkeys(map(id, mesh.links), around))
    return rates


def _carried(plan: Plan, graph: Forwarding, link: Link) -> tuple[bool, ...]:
    """Which networks of a plan a link passes; that of ports that name none, where the plan has no networks."""
    edge = Edge(link, link.near, link.far, None)
    return tuple(graph.passes(edge, network) for network in plan.networks or (None,))
