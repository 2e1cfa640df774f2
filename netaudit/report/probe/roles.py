"""What part each interface plays: in use, planned, through the air, worth telling."""

from __future__ import annotations

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.expectation import ExpectedPort
from netaudit.model.machine_state import Interface, Medium
from netaudit.model.observation import FarAddress
from netaudit.model.place import PortRef
from netaudit.model.vocabulary import Address


def planned_port(diagnosis: Diagnosis) -> PortRef | None:
    """The port of the station that the plan means for this storage."""
    expected = diagnosis.expectation
    return None if expected is None or expected.road is None else expected.road.from_port


def planned_interface(diagnosis: Diagnosis) -> str | None:
    """The interface that was recognised as that port."""
    port = planned_port(diagnosis)
    return next((name for name, known in diagnosis.plan_ports.items() if port is not None and known == port), None)


def expected_port(diagnosis: Diagnosis, interface: str) -> ExpectedPort | None:
    """What the plan expects of an interface."""
    port = diagnosis.plan_ports.get(interface)
    return None if port is None or diagnosis.expectation is None else diagnosis.expectation.ports.get(port.port)


def medium(diagnosis: Diagnosis, interface: str) -> Medium:
    """What an interface sends through; a port that the plan calls radio counts as such, whatever the system says."""
    expected = expected_port(diagnosis, interface)
    if expected is not None and expected.radio:
        return "radio"
    state = diagnosis.observation.interfaces.get(interface)
    return "unknown" if state is None else state.medium


def used_interfaces(diagnosis: Diagnosis) -> tuple[str, ...]:
    """Interfaces that carry, or would carry, the storage's traffic, each once."""
    return tuple(dict.fromkeys(use.interface for use in diagnosis.uses))


def used_addresses(diagnosis: Diagnosis) -> tuple[Address, ...]:
    """The storage's addresses that are in use, each once."""
    return tuple(dict.fromkeys(use.remote for use in diagnosis.uses if use.remote is not None))


def far_address(diagnosis: Diagnosis, address: Address | None) -> FarAddress | None:
    """What was learnt about an address of the storage."""
    return next((each for each in diagnosis.observation.addresses if each.address == address), None)


def interfaces_that_matter(diagnosis: Diagnosis) -> tuple[Interface, ...]:
    """Interfaces that are in use, in the plan, or have an address; those in use first."""
    seen = diagnosis.observation.interfaces
    used = [seen[name] for name in used_interfaces(diagnosis) if name in seen]
    named = [state for name, state in seen.items() if name in diagnosis.plan_ports]
    addressed = [state for state in seen.values() if any(not host.is_loopback for host in state.hosts)]
    return tuple({state.name: state for state in (*used, *named, *addressed)}.values())
