"""Roads: which interfaces are worth judging, and in which words they are spoken of."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.machine_state import Interface
from netaudit.model.situation import Situation, Use
from netaudit.model.vocabulary import Address
from netaudit.units import both_rates_text


def leaving(situation: Situation) -> tuple[Use, ...]:
    """What carries the traffic, one use for each interface and address; nothing where the storage is this machine."""
    found: dict[tuple[str, Address | None], Use] = {}
    for use in situation.uses:
        far = situation.address(use.remote)
        if far is None or not far.is_here:
            found.setdefault((use.interface, use.remote), use)
    return tuple(found.values())


def used_states(situation: Situation) -> tuple[Interface, ...]:
    """The interfaces in use, each once."""
    names = dict.fromkeys(use.interface for use in leaving(situation))
    return tuple(situation.seen.interfaces[name] for name in names if name in situation.seen.interfaces)


def watched(situation: Situation) -> tuple[Interface, ...]:
    """The interfaces whose link matters: those in use and the planned one, but no Wi-Fi, no tunnel, no loopback."""
    names = dict.fromkeys((*(state.name for state in used_states(situation)), *situation.planned_names))
    known = (situation.seen.interfaces[name] for name in names)
    return tuple(
        state
        for state in known
        if not situation.through_air(state.name) and state.medium != "tunnel" and not _is_loopback(state)
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
        if state.medium == "wired" and state.carrier and hosts and not situation.through_air(state.name):
            yield state


def with_rate(name: str, situation: Situation) -> str:
    """An interface with what it is and how fast: wlan0, Wi-Fi at 866 Mb/s (108 MB/s)."""
    state = situation.seen.interfaces.get(name)
    kind = ", Wi-Fi" if situation.through_air(name) else ""
    rate = None if state is None or state.made_up_rate else state.rate_bit_per_s
    return f"{situation.named(name)}{kind}{f' at {both_rates_text(rate)}' if rate else ''}"


def evidence_text(use: Use) -> str:
    """How it is known which way the traffic goes, as a clause."""
    if use.evidence == "counters":
        return f"the counters prove it: {use.counted}"
    if use.evidence == "client":
        return "the file client itself reports it"
    if use.evidence == "session":
        ends = f" from {use.local} to {use.remote}" if use.local is not None and use.remote is not None else ""
        return f"the living session{ends} runs there"
    return "that is where a new connection would go"
