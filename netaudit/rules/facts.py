"""The facts that every rule may ask for, built once for a plan."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import NamedTuple

from netaudit.model.path import Path
from netaudit.model.place import PortRef
from netaudit.model.plan import Plan, Port, Station
from netaudit.network.links import Link
from netaudit.network.topology import Topology, build_topology


class FreePorts:
    """The ports of each device that are free to be used, found when a remedy first asks for them."""

    def __init__(self, plan: Plan, topology: Topology) -> None:
        self._plan = plan
        self._topology = topology
        self._free: dict[str, tuple[PortRef, ...]] = {}

    def like(self, port: PortRef, rates: Collection[int]) -> PortRef | None:
        """A free port of the same device, connector and networks that runs one of some rates [bit/s]."""
        connector = self._plan.devices[port.device].ports[port.port].connector
        return self.suiting(port, rates, lambda candidate: candidate.connector == connector)

    def suiting(self, port: PortRef, rates: Collection[int], suits: Callable[[Port], bool]) -> PortRef | None:
        """A free port of the same device and networks that suits and runs one of some rates [bit/s]."""
        ports = self._plan.devices[port.device].ports
        carried = self._topology.forwarding.carried
        for ref in self._of(port.device):
            candidate = ports[ref.port]
            runs = candidate.rates is not None and not set(rates).isdisjoint(candidate.rates.bit_per_s)
            if runs and suits(candidate) and carried[ref] == carried[port]:
                return ref
        return None

    def _of(self, name: str) -> tuple[PortRef, ...]:
        if name not in self._free:
            device = self._plan.devices[name]
            bonded = {port for bond in device.bonds.values() for port in bond.ports}
            self._free[name] = tuple(
                ref
                for ref in (PortRef(name, port) for port in device.ports if port not in bonded)
                if ref not in self._topology.cabling.cables_at
                and device.ports[ref.port].module is None
                and device.ports[ref.port].purpose is None
            )
        return self._free[name]


class Facts(NamedTuple):
    """A plan with what follows from it."""

    plan: Plan
    topology: Topology
    link_between: Mapping[frozenset[PortRef], Link]
    """Two ports to the link between them."""
    free: FreePorts

    @property
    def planned(self) -> tuple[Path, ...]:
        """The planned path of each seat and storage, usable or not."""
        return tuple(path for path in self.topology.paths if path.planned)

    def port(self, ref: PortRef) -> Port:
        """A port by its name."""
        return self.plan.devices[ref.device].ports[ref.port]

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
    return Facts(plan, topology, between, FreePorts(plan, topology))
