"""Roads: which interface stands on which, which of them is meant, and in which words they are spoken of."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.diagnosis import Use
from netaudit.model.expectation import ExpectedPort, ExpectedRoad
from netaudit.model.machine_state import Interface
from netaudit.model.observation import FarAddress
from netaudit.model.vocabulary import Address
from netaudit.rules.situation import Situation
from netaudit.units import both_rates_text


def planned_road(situation: Situation) -> ExpectedRoad | None:
    """The road that the plan means, where there is a plan with one."""
    return None if situation.expected is None else situation.expected.road


def planned_port(situation: Situation) -> ExpectedPort | None:
    """The port of this station that the plan means for the storage."""
    road = planned_road(situation)
    return None if road is None or situation.expected is None else situation.expected.ports.get(road.from_port.port)


def planned_names(situation: Situation) -> tuple[str, ...]:
    """The interfaces that were recognised as that port: itself, and a VLAN or bridge that bears its address."""
    port = planned_port(situation)
    return tuple(name for name, ref in situation.plan_ports.items() if port is not None and ref == port.port)


def stack(name: str, situation: Situation) -> tuple[str, ...]:
    """An interface and those that it stands on, the highest first; a tunnel stands on none, wherever it is dug."""
    found: dict[str, None] = {}
    at: str | None = name
    while at is not None and at not in found:
        found[at] = None
        state = situation.seen.interfaces.get(at)
        at = None if state is None or state.medium == "tunnel" else state.parent
    return tuple(found)


def kin(name: str, situation: Situation) -> frozenset[str]:
    """An interface with all that it stands on and all that stands on it: they count the same bytes."""
    above = (other for other in situation.seen.interfaces if name in stack(other, situation))
    return frozenset((*stack(name, situation), *above))


def is_planned(name: str, situation: Situation) -> bool:
    """Whether an interface is the planned one, or stands on it."""
    return not set(planned_names(situation)).isdisjoint(stack(name, situation))


def through_air(name: str, situation: Situation) -> bool:
    """Whether what an interface sends goes through the air."""
    return any(situation.is_radio(each) for each in stack(name, situation))


def through_tunnel(name: str, situation: Situation) -> bool:
    """Whether an interface is a tunnel that the plan does not mean."""
    state = situation.seen.interfaces.get(name)
    return state is not None and state.medium == "tunnel" and not is_planned(name, situation)


def leaving(situation: Situation) -> tuple[Use, ...]:
    """What carries the traffic, one use for each interface and address; nothing where the storage is this machine."""
    found: dict[tuple[str, Address | None], Use] = {}
    for use in situation.uses:
        if not is_here(situation.address(use.remote)):
            found.setdefault((use.interface, use.remote), use)
    return tuple(found.values())


def is_here(far: FarAddress | None) -> bool:
    """Whether an address of the storage is this machine's own."""
    return far is not None and far.route is not None and far.route.local


def used_states(situation: Situation) -> tuple[Interface, ...]:
    """The interfaces in use, each once."""
    names = dict.fromkeys(use.interface for use in leaving(situation))
    return tuple(situation.seen.interfaces[name] for name in names if name in situation.seen.interfaces)


def watched(situation: Situation) -> tuple[Interface, ...]:
    """The interfaces whose link matters: those in use and the planned one, but no Wi-Fi, no tunnel, no loopback."""
    names = dict.fromkeys((*(state.name for state in used_states(situation)), *planned_names(situation)))
    known = (situation.seen.interfaces[name] for name in names)
    return tuple(
        state
        for state in known
        if not through_air(state.name, situation) and state.medium != "tunnel" and not _is_loopback(state)
    )


def _is_loopback(state: Interface) -> bool:
    return bool(state.hosts) and all(host.is_loopback for host in state.hosts)


def owner_of(address: Address | None, situation: Situation) -> str | None:
    """The interface that has an address."""
    if address is None:
        return None
    return next((name for name, state in situation.seen.interfaces.items() if address in state.hosts), None)


def wires(situation: Situation) -> Iterator[Interface]:
    """Physical interfaces on a cable that hear the other end and have an address beyond the one every port makes up."""
    for state in situation.seen.interfaces.values():
        hosts = [host for host in state.hosts if not (host.version == 6 and host.is_link_local)]
        if state.medium == "wired" and state.carrier and hosts and not situation.is_radio(state.name):
            yield state


def storage_name(situation: Situation) -> str:
    """The storage as the plan calls it, or else as it was asked about."""
    planned = None if situation.expected is None else situation.expected.storage
    return planned or situation.seen.host


def named(name: str, situation: Situation) -> str:
    """An interface with the port of the plan that it is: en5 (cut-1/wire)."""
    port = situation.plan_ports.get(name)
    return name if port is None else f"{name} ({port})"


def with_rate(name: str, situation: Situation) -> str:
    """An interface with what it is and how fast: wlan0, Wi-Fi at 866 Mb/s (108 MB/s)."""
    state = situation.seen.interfaces.get(name)
    kind = ", Wi-Fi" if through_air(name, situation) else ""
    rate = None if state is None or state.made_up_rate else state.rate_bit_per_s
    return f"{named(name, situation)}{kind}{f' at {both_rates_text(rate)}' if rate else ''}"


def evidence_text(use: Use) -> str:
    """How it is known which way the traffic goes, as a clause."""
    if use.evidence == "client":
        return "the file client itself reports it"
    if use.evidence == "session":
        ends = f" from {use.local} to {use.remote}" if use.local is not None and use.remote is not None else ""
        return f"the living session{ends} runs there"
    return "that is where a new connection would go"
