"""What changed between two probes of one storage, a line each; what was or is unknown is no change."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.listing import listed
from netaudit.model.diagnosis import Diagnosis
from netaudit.model.finding import Finding
from netaudit.model.machine_state import Interface, Session
from netaudit.model.observation import FarAddress
from netaudit.model.place import Place
from netaudit.model.services import service_text
from netaudit.model.situation import Situation
from netaudit.report.probe.spelling import clean
from netaudit.report.probe.tables import OUTCOMES, interfaces_that_matter
from netaudit.report.probe.words import sentence
from netaudit.units import both_rates_text

RADIO_SWING = 2
"""A radio's rate wanders all the time; only one that doubles or halves is told."""


def changes(before: Diagnosis, after: Diagnosis) -> tuple[str, ...]:
    """A line for each thing that changed; empty where nothing did."""
    was, now = before.situation, after.situation
    lines = (
        *_uses(was, now),
        *_interfaces(was, now),
        *_addresses(was, now),
        *_sessions(was, now),
        *_findings(before, after),
    )
    return tuple(clean(line) for line in lines)


def _uses(before: Situation, after: Situation) -> Iterator[str]:
    """Another interface carries the traffic, or the same one to another address."""
    was, now = _roads(before), _roads(after)
    if was != now:
        yield f"{sentence(after)} Before, {_by(before)}."


def _roads(situation: Situation) -> tuple[frozenset[str], frozenset[str], bool]:
    """Interfaces and addresses in use, and whether that is only a prediction."""
    addresses = frozenset(map(str, situation.remotes))
    predicted = any(use.evidence == "route" for use in situation.uses)
    return frozenset(situation.used_names), addresses, predicted


def _by(situation: Situation) -> str:
    interfaces, addresses = situation.used_names, situation.remotes
    if not interfaces:
        return "nothing led there"
    to = f" to {listed([str(address) for address in addresses])}" if addresses else ""
    verb = "would have gone" if any(use.evidence == "route" for use in situation.uses) else "went"
    return f"it {verb} by {listed(interfaces)}{to}"


def _interfaces(before: Situation, after: Situation) -> Iterator[str]:
    """What happened to the interfaces that matter."""
    was, now = before.seen.interfaces, after.seen.interfaces
    matter = (*interfaces_that_matter(after), *interfaces_that_matter(before))
    for name in dict.fromkeys(state.name for state in matter):
        if name not in now:
            yield f"{name} is gone"
        elif name not in was:
            yield f"{name} is new"
        else:
            is_radio = "radio" in (after.medium(name), before.medium(name))
            yield from _interface(was[name], now[name], RADIO_SWING if is_radio else 1)


def _interface(was: Interface, now: Interface, swing: int) -> Iterator[str]:
    """What changed on one interface; a rate only where it changed by more than a swing."""
    if None not in (was.carrier, now.carrier) and was.carrier != now.carrier:
        yield f"{now.name} has a link again" if now.carrier else f"{now.name} lost its link"
    elif was.carrier_changes is not None and now.carrier_changes is not None:
        flips = now.carrier_changes - was.carrier_changes
        if flips > 0:
            yield f"{now.name} lost its link and has it again"
    rates = (was.rate_bit_per_s, now.rate_bit_per_s)
    if rates[0] is not None and rates[1] is not None and rates[0] != rates[1]:
        low, high = sorted((rates[0], rates[1]))
        if high >= low * swing:
            yield f"{now.name} runs at {both_rates_text(rates[1])}, before at {both_rates_text(rates[0])}"
    if set(was.addresses) != set(now.addresses):
        held = listed([str(address) for address in now.addresses] or ["no address"])
        had = listed([str(address) for address in was.addresses] or ["none"])
        yield f"{now.name} has {held}, before {had}"
    if None not in (was.mtu, now.mtu) and was.mtu != now.mtu:
        yield f"{now.name} sends packets to {now.mtu} octets, before to {was.mtu}"


def _addresses(before: Situation, after: Situation) -> Iterator[str]:
    """Addresses of the storage that came or went, and services that answer otherwise."""
    was = {far.address: far for far in before.seen.addresses}
    now = {far.address: far for far in after.seen.addresses}
    name = after.storage_name
    yield from (f"{name} has the address {address} now" for address in now if address not in was)
    yield from (f"{name} has the address {address} no longer" for address in was if address not in now)
    for address, far in now.items():
        if address in was:
            yield from _services(was[address], far)


def _services(was: FarAddress, now: FarAddress) -> Iterator[str]:
    for port, knock in now.knocks.items():
        earlier = was.knocks.get(port)
        if earlier is not None and earlier.outcome != knock.outcome:
            state, stood = OUTCOMES[knock.outcome], OUTCOMES[earlier.outcome]
            yield f"{service_text(port)} at {now.address} is {state}, before {stood}"
    macs = [set(far.neighbours.macs) if far.neighbours is not None else None for far in (was, now)]
    if macs[0] and macs[1] and macs[0] != macs[1]:
        yield f"{now.address} is answered by {listed(sorted(macs[1]))}, before by {listed(sorted(macs[0]))}"


def _sessions(before: Situation, after: Situation) -> Iterator[str]:
    was, now = _by_ends(before), _by_ends(after)
    yield from (f"session {ends} is open{_over(now[ends])}" for ends in now if ends not in was)
    yield from (f"session {ends} has ended" for ends in was if ends not in now)
    for ends, session in now.items():
        earlier = was[ends].interface if ends in was else None
        if None not in (earlier, session.interface) and earlier != session.interface:
            yield f"session {ends} goes by {session.interface}, before by {earlier}"


def _by_ends(situation: Situation) -> dict[str, Session]:
    """Sessions by their two ends."""
    return {f"{session.local} - {session.remote}": session for session in situation.seen.sessions}


def _over(session: Session) -> str:
    return "" if session.interface is None else f", over {session.interface}"


def _findings(before: Diagnosis, after: Diagnosis) -> Iterator[str]:
    was, now = _by_rule(before), _by_rule(after)
    for key, finding in now.items():
        if key not in was:
            yield f"{finding.severity}: {finding.rule} at {key[1]}: {finding.message}"
    yield from (f"no longer: {rule} at {place}" for rule, place in was if (rule, place) not in now)


def _by_rule(diagnosis: Diagnosis) -> dict[tuple[str, Place], Finding]:
    """Findings by their rule and deciding place."""
    return {(finding.rule, finding.where[0]): finding for finding in diagnosis.findings}
