"""A situation: an observation beside what the plan expects, and what follows from the two for every live rule."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.model.diagnosis import Diagnosis, Use
from netaudit.model.expectation import Expectation, ExpectedPort
from netaudit.model.machine_state import Interface
from netaudit.model.observation import FarAddress, Observation, most_likely
from netaudit.model.place import Place, PortRef
from netaudit.model.vocabulary import Address


class Situation(NamedTuple):
    """What the live rules judge."""

    seen: Observation
    expected: Expectation | None
    plan_ports: Mapping[str, PortRef]
    """Interface to the plan's port that it was recognised as."""
    uses: tuple[Use, ...]
    """What carries the storage's traffic, by the surest evidence there is; empty where nothing leads there."""

    @property
    def planned_interface(self) -> Interface | None:
        """The interface that the plan means for this storage; None where it is not recognised."""
        road = None if self.expected is None else self.expected.road
        names = [name for name, port in self.plan_ports.items() if road is not None and port == road.from_port]
        return self.seen.interfaces.get(names[0]) if names else None

    def expected_port(self, interface: str) -> ExpectedPort | None:
        """What the plan expects of an interface."""
        ref = self.plan_ports.get(interface)
        return None if ref is None or self.expected is None else self.expected.ports[ref.port]

    def is_radio(self, interface: str) -> bool:
        """Whether an interface goes through the air: the system says so, or the plan does."""
        port = self.expected_port(interface)
        state = self.seen.interfaces.get(interface)
        return (state is not None and state.medium == "radio") or (port is not None and port.radio)

    def address(self, address: Address | None) -> FarAddress | None:
        """What was learnt about an address of the storage."""
        return next((each for each in self.seen.addresses if each.address == address), None)

    @property
    def used_addresses(self) -> tuple[FarAddress, ...]:
        """The storage's addresses that are in use."""
        remotes = dict.fromkeys(use.remote for use in self.uses)
        return tuple(far for remote in remotes if (far := self.address(remote)) is not None)


def situate(seen: Observation, expected: Expectation | None) -> Situation:
    """Hold an observation against what a plan expects."""
    plan_ports = {} if expected is None else dict(_recognised(seen, expected))
    return Situation(seen, expected, plan_ports, tuple(dict.fromkeys(_uses(seen))))


def interface_place(name: str) -> Place:
    """The place of an interface of this machine."""
    return Place("interface", name)


def address_place(address: Address) -> Place:
    """The place of an address of the storage."""
    return Place("address", str(address))


def _recognised(seen: Observation, expected: Expectation) -> Iterator[tuple[str, PortRef]]:
    """Each interface with the plan's port that it is: by its name, else its hardware address, else its address."""
    for name, interface in seen.interfaces.items():
        ports = expected.ports.values()
        by_name = [port for port in ports if port.interface == name]
        by_mac = [port for port in ports if port.mac is not None and port.mac == interface.mac]
        by_address = [port for port in ports if not set(port.addresses).isdisjoint(interface.hosts)]
        found = by_name or by_mac or by_address
        if found:
            yield name, found[0].port


def _uses(seen: Observation) -> Iterator[Use]:
    """What carries the traffic: what the client reports, else the living sessions, else the route."""
    owner: dict[Address | None, str] = {
        host: name for name, interface in seen.interfaces.items() for host in interface.hosts
    }
    sent_by: dict[tuple[Address | None, Address | None], str | None] = {
        (session.local.address, session.remote.address): session.interface for session in seen.sessions
    }
    channels = [
        Use(name, "client", channel.remote, channel.local)
        for channel in seen.channels
        if (name := channel.interface or sent_by.get((channel.local, channel.remote)) or owner.get(channel.local))
        is not None
    ]
    sessions = [
        Use(name, "session", session.remote.address, session.local.address)
        for session in seen.sessions
        if (name := session.interface or owner.get(session.local.address)) is not None
    ]
    routed = [
        Use(each.route.interface, "route", each.address, each.route.source)
        for each in most_likely(seen.addresses)
        if each.route is not None
    ]
    yield from channels or sessions or routed[:1]


def recognised(seen: Observation, expected: Expectation | None) -> Diagnosis:
    """An observation that is not judged yet: what carries the traffic, and which ports of the plan were recognised."""
    situation = situate(seen, expected)
    return Diagnosis(seen, expected, situation.uses, situation.plan_ports)
