"""A situation: an observation beside what the plan expects, and what follows from the two for rules and reports."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from netaudit.model.expectation import Expectation, ExpectedPort, ExpectedRoad
from netaudit.model.machine_state import Evidence, Interface, Medium
from netaudit.model.observation import FarAddress, Observation
from netaudit.model.place import PortRef
from netaudit.model.vocabulary import Address


class Use(NamedTuple):
    """An interface that carries, or would carry, the storage's traffic."""

    interface: str
    evidence: Evidence
    remote: Address | None = None
    local: Address | None = None
    counted: str = ""
    """What the counters tell against the look-up, as a clause; empty where they are not the evidence."""


class Situation(NamedTuple):
    """What the live rules judge, and what the first sentence tells."""

    seen: Observation
    expected: Expectation | None
    plan_ports: Mapping[str, PortRef]
    """Interface to the plan's port that it was recognised as."""
    uses: tuple[Use, ...]
    """What carries the storage's traffic, by the surest evidence there is; empty where nothing leads there."""

    @property
    def planned_road(self) -> ExpectedRoad | None:
        """The road that the plan means, where there is a plan with one."""
        return None if self.expected is None else self.expected.road

    @property
    def planned_port(self) -> ExpectedPort | None:
        """The port of this station that the plan means for the storage."""
        road = self.planned_road
        return None if road is None or self.expected is None else self.expected.ports.get(road.from_port.port)

    @property
    def planned_names(self) -> tuple[str, ...]:
        """The interfaces that were recognised as that port: itself, and a VLAN or bridge that bears its address."""
        port = self.planned_port
        return tuple(name for name, ref in self.plan_ports.items() if port is not None and ref == port.port)

    @property
    def planned_interface(self) -> Interface | None:
        """The first of them; None where none is recognised."""
        return next((self.seen.interfaces[name] for name in self.planned_names), None)

    @property
    def planned_way(self) -> str:
        """The planned interface, or else the planned port, in words."""
        road, state = self.planned_road, self.planned_interface
        if state is not None:
            return self.named(state.name)
        return "the planned port" if road is None else str(road.from_port)

    def expected_port(self, interface: str) -> ExpectedPort | None:
        """What the plan expects of an interface."""
        ref = self.plan_ports.get(interface)
        return None if ref is None or self.expected is None else self.expected.ports[ref.port]

    def stack(self, interface: str) -> tuple[str, ...]:
        """An interface and those that it stands on, the highest first; a tunnel stands on none, wherever it is dug."""
        found: dict[str, None] = {}
        at: str | None = interface
        while at is not None and at not in found:
            found[at] = None
            state = self.seen.interfaces.get(at)
            at = None if state is None or state.medium == "tunnel" else state.parent
        return tuple(found)

    def kin(self, interface: str) -> frozenset[str]:
        """An interface with all that it stands on and all that stands on it: they count the same bytes."""
        above = (other for other in self.seen.interfaces if interface in self.stack(other))
        return frozenset((*self.stack(interface), *above))

    def is_planned(self, interface: str) -> bool:
        """Whether an interface is the planned one, or stands on it."""
        return not set(self.planned_names).isdisjoint(self.stack(interface))

    def _is_radio(self, interface: str) -> bool:
        """Whether an interface is a radio itself: the system says so, or the plan does."""
        port = self.expected_port(interface)
        state = self.seen.interfaces.get(interface)
        return (state is not None and state.medium == "radio") or (port is not None and port.radio)

    def through_air(self, interface: str) -> bool:
        """Whether what an interface sends goes through the air: it is a radio, or stands on one."""
        return any(self._is_radio(each) for each in self.stack(interface))

    def through_tunnel(self, interface: str) -> bool:
        """Whether an interface is a tunnel that the plan does not mean."""
        state = self.seen.interfaces.get(interface)
        return state is not None and state.medium == "tunnel" and not self.is_planned(interface)

    def medium(self, interface: str) -> Medium:
        """What an interface sends through in the end."""
        state = self.seen.interfaces.get(interface)
        return "radio" if self.through_air(interface) else "unknown" if state is None else state.medium

    def address(self, address: Address | None) -> FarAddress | None:
        """What was learnt about an address of the storage."""
        return next((each for each in self.seen.addresses if each.address == address), None)

    @property
    def used_names(self) -> tuple[str, ...]:
        """The interfaces in use, each once."""
        return tuple(dict.fromkeys(use.interface for use in self.uses))

    @property
    def remotes(self) -> tuple[Address, ...]:
        """The addresses that the traffic goes to, each once, learnt about or not."""
        return tuple(dict.fromkeys(use.remote for use in self.uses if use.remote is not None))

    @property
    def used_addresses(self) -> tuple[FarAddress, ...]:
        """What was learnt about them."""
        return tuple(far for remote in self.remotes if (far := self.address(remote)) is not None)

    @property
    def storage_name(self) -> str:
        """The storage as the plan calls it, or else as it was asked about."""
        planned = None if self.expected is None else self.expected.storage
        return planned or self.seen.host

    def named(self, interface: str) -> str:
        """An interface with the port of the plan that it is: en5 (cut-1/wire)."""
        port = self.plan_ports.get(interface)
        return interface if port is None else f"{interface} ({port})"
