"""The seat that this machine is: a station of a plan, and what the plan adds to a probe from there."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import NamedTuple

from netaudit.calculations.run_lengths import with_run_lengths
from netaudit.errors import InputError, Problem, nearest
from netaudit.machine.questions import Machine
from netaudit.model.expectation import Expectation
from netaudit.model.machine_state import Interface
from netaudit.model.observation import Observation
from netaudit.model.plan import Plan, Station
from netaudit.model.vocabulary import Address
from netaudit.network.expected import expectation, planned_addresses, stations_like, storage_named
from netaudit.network.topology import Topology, build_topology
from netaudit.plan.load import load
from netaudit.probing.request import Request
from netaudit.rules.situation import situate


class Seat(NamedTuple):
    """The plan, and the station of it that this machine is."""

    plan: Plan
    topology: Topology
    station: Station

    def expects(self, host: str, addresses: Collection[Address] = ()) -> Expectation:
        """What the plan expects of this seat and the storage of that name or of those addresses."""
        storage = storage_named(self.plan, host, addresses, self.station)
        return expectation(self.plan, self.topology, self.station, storage)

    def expects_of(self, seen: Observation) -> Expectation:
        """What the plan expects of this seat and the storage that was observed."""
        return self.expects(seen.host, [each.address for each in seen.addresses])

    def refined(self, request: Request) -> Request:
        """The request with what the plan adds: addresses of a name that no resolver knows, the planned packet."""
        road = self.expects(request.target).road
        mtu = None if road is None else road.mtu
        return request._replace(fallback=planned_addresses(self.plan, request.target), mtu=mtu)

    def planned_interfaces(self, seen: Observation) -> tuple[str, ...]:
        """The interfaces that the plan means, which are looked at closely even where nothing goes by them."""
        planned = situate(seen, self.expects_of(seen)).planned_interface
        return () if planned is None else (planned.name,)


def find_seat(plan_file: str, station: str | None, machine: Machine) -> Seat:
    """The seat of that name, or else the one that has the addresses of this machine.

    Raises InputError where the plan is not sound, has no such station, or not exactly one that may be this machine.
    """
    plan = with_run_lengths(load(plan_file))
    found = _recognised(plan, machine.interfaces().values()) if station is None else _named(plan, station)
    return Seat(plan, build_topology(plan), found)


def _stations(plan: Plan) -> Mapping[str, Station]:
    return {name: device for name, device in plan.devices.items() if isinstance(device, Station)}


def _recognised(plan: Plan, interfaces: Iterable[Interface]) -> Station:
    like = stations_like(plan, interfaces)
    if len(like) == 1:
        return like[0]
    found = "none of them is recognised" if not like else f"it may be {' or '.join(one.name for one in like)}"
    text = f"which seat is this machine? {found} by address: give --station, one of {', '.join(_stations(plan))}"
    raise InputError([Problem(plan.file, text)])


def _named(plan: Plan, name: str) -> Station:
    stations = _stations(plan)
    if name in stations:
        return stations[name]
    hint = nearest(name, stations)
    remedy = f"did you mean {hint!r}?" if hint else f"the stations are {', '.join(stations)}"
    raise InputError([Problem(plan.file, f"--station: {name!r} is no station of the plan; {remedy}")])
