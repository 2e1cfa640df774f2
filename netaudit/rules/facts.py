"""The facts that every rule may ask for, built once for a plan."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from netaudit.model.path import Path
from netaudit.model.place import PortRef
from netaudit.model.plan import Plan, Station
from netaudit.network.links import Link
from netaudit.network.topology import Topology, build_topology


class Facts(NamedTuple):
    """A plan with what follows from it."""

    plan: Plan
    topology: Topology
    link_between: Mapping[frozenset[PortRef], Link]
    """Two ports to the link between them."""

    @property
    def planned(self) -> tuple[Path, ...]:
        """The planned path of each seat and storage, usable or not."""
        return tuple(path for path in self.topology.paths if path.planned)

    def station(self, path: Path) -> Station:
        """The seat at the start of a path."""
        station = self.plan.devices[path.station]
        if not isinstance(station, Station):
            raise TypeError(path.station)
        return station


def build_facts(plan: Plan) -> Facts:
    """Build the facts of a plan."""
    topology = build_topology(plan)
    between = {frozenset((link.near, link.far)): link for link in reversed(topology.links)}
    return Facts(plan, topology, between)
