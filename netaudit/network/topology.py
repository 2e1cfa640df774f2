"""The topology of a plan: everything that follows from its cables, built once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from netaudit.model.path import Path
from netaudit.model.plan import Plan
from netaudit.network.channels import Cabling, find_channels
from netaudit.network.forwarding import Forwarding, forwarding
from netaudit.network.islands import Islands
from netaudit.network.links import Link, Promised, wired_link
from netaudit.network.loops import Loop, find_loops
from netaudit.network.paths import PathMaker
from netaudit.network.radio import radio_links
from netaudit.network.roads import find_wants
from netaudit.network.routers import find_routers


@dataclass(frozen=True, slots=True)
class Topology:
    """The graph of a plan."""

    cabling: Cabling
    links: tuple[Link, ...]
    """Wired links in file order of their near ends, then radio links."""
    forwarding: Forwarding
    loops: tuple[Loop, ...]
    loop_rates: Mapping[int, Promised]
    """What links on protected loops promise, by identity of the link."""
    paths: tuple[Path, ...]
    """For each seat and storage the planned path first."""

    def promised(self, link: Link) -> Promised:
        """What a link promises a road over it, which may have to go round a loop the other way."""
        return self.loop_rates.get(id(link), link.promised)


def build_topology(plan: Plan) -> Topology:
    """Everything that follows from the cables of a plan."""
    cabling = find_channels(plan)
    wired = tuple(wired_link(plan, channel) for channel in cabling.channels)
    links = (*wired, *radio_links(plan, wired))
    graph = forwarding(plan, links)
    loops = find_loops(plan, graph)
    wants = list(find_wants(plan, graph, find_routers(plan, graph)))
    loop_rates = _loop_rates(loops)
    maker = PathMaker(plan, wants, loop_rates)
    paths = tuple(path for want in wants for path in maker.paths(want))
    return Topology(cabling, links, graph, loops, loop_rates, paths)


def _loop_rates(loops: tuple[Loop, ...]) -> Mapping[int, Promised]:
    """What a link on a protected loop promises while it is open which link the tree blocks.

    Frames may go round either way, and on into any loop that shares a link, so that the least and the most of all of
    them together bound them.
    """
    rates: dict[int, Promised] = {}
    for mesh in _meshes([loop for loop in loops if not loop.unprotected]):
        bounds = [link.promised for link in mesh.values()]
        mosts = [one.most_bit_per_s for one in bounds if one.most_bit_per_s is not None]
        around = Promised(min(one.least_bit_per_s for one in bounds), max(mosts) if len(mosts) == len(bounds) else None)
        rates.update(dict.fromkeys(mesh, around))
    return rates


def _meshes(loops: Sequence[Loop]) -> Iterable[Mapping[int, Link]]:
    """The links, by identity, of the loops that hang together by links they share."""
    links = {id(link): link for loop in loops for link in loop.links}
    islands: Islands[int] = Islands()
    for loop in loops:
        for link in loop.links:
            islands.join(id(link), id(loop.links[0]))
    meshes: dict[int, dict[int, Link]] = {}
    for key, link in links.items():
        meshes.setdefault(islands.of(key), {})[key] = link
    return meshes.values()
