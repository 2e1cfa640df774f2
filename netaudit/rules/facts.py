"""The facts that every rule may ask for, built once for a plan."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Mapping, Sequence
from typing import NamedTuple

from netaudit.model.path import Path
from netaudit.model.place import PortRef
from netaudit.model.plan import Connector, Plan, Port, Rates, Station
from netaudit.network.forwarding import Carried
from netaudit.network.links import Link
from netaudit.network.topology import Topology, build_topology

_Kind = tuple[Carried | None, Connector | None, Rates | None]
"""What tells free ports apart that a remedy may name; passive ones carry no networks of their own."""


class FreePorts:
    """The ports of each device that are free to be used, found when a remedy first asks for them."""

    def __init__(self, plan: Plan, topology: Topology) -> None:
        self._plan = plan
        self._topology = topology
        self._free: dict[str, Mapping[_Kind, PortRef]] = {}

    def like(self, port: PortRef, rates: Collection[int]) -> PortRef | None:
        """A free port of the same device, connector and networks that runs one of some rates [bit/s]."""
        connector = self._plan.devices[port.device].ports[port.port].connector
        return self.suiting(port, rates, lambda candidate: candidate.connector == connector)

    def suiting(self, port: PortRef, rates: Collection[int], suits: Callable[[Port], bool]) -> PortRef | None:
        """A free port of the same device and networks that runs one of some rates [bit/s] and suits.

        Only its connector and its rates may decide whether it suits: of ports alike in these the first one is asked.
        """
        ports = self._plan.devices[port.device].ports
        carried = self._topology.forwarding.carried.get(port)
        for (own, _, own_rates), ref in self._of(port.device).items():
            runs = own_rates is not None and not set(rates).isdisjoint(own_rates.bit_per_s)
            if runs and own == carried and suits(ports[ref.port]):
                return ref
        return None

    def _of(self, name: str) -> Mapping[_Kind, PortRef]:
        """The first free port of each kind of a device."""
        if name not in self._free:
            device = self._plan.devices[name]
            carried = self._topology.forwarding.carried
            bonded = {port for bond in device.bonds.values() for port in bond.ports}
            first: dict[_Kind, PortRef] = {}
            for ref in (PortRef(name, port) for port in device.ports if port not in bonded):
                port = device.ports[ref.port]
                bare = port.module is None and port.purpose is None
                if bare and ref not in self._topology.cabling.cables_at:
                    first.setdefault((carried.get(ref), port.connector, port.rates), ref)
            self._free[name] = first
        return self._free[name]


class Facts(NamedTuple):
    """A plan with what follows from it."""

    plan: Plan
    topology: Topology
    link_between: Mapping[frozenset[PortRef], Link]
    """Two ports to the link between them."""
    links_at: Mapping[PortRef, Sequence[Link]]
    """Port to the links that end there, in the order of the topology."""
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
    links_at: dict[PortRef, list[Link]] = defaultdict(list)
    for link in topology.links:
        for end in (link.near, link.far):
            links_at[end].append(link)
    return Facts(plan, topology, between, dict(links_at), FreePorts(plan, topology))
