"""The answer of a probe in one sentence: which port carries the storage's traffic, how fast, and whether as planned."""

from __future__ import annotations

from netaudit.listing import listed
from netaudit.model.services import service_text
from netaudit.model.situation import Situation, Use
from netaudit.report.probe.spelling import clean, link_rate_text
from netaudit.units import both_rates_text


def sentence(situation: Situation) -> str:
    """The answer; true of a first look too, at which only addresses, routes, interfaces and sessions are known."""
    return clean(f"{_answer(situation)}.")


def _answer(situation: Situation) -> str:
    subject = _subject(situation)
    if _is_here(situation):
        return f"{subject} is this machine itself: its traffic leaves by no port{_silence(situation)}"
    if not situation.uses:
        return _no_road(situation, subject)
    roads = tuple({use.interface: use for use in situation.uses}.values())
    dead = [f"{situation.named(use.interface)}{why}" for use in roads if (why := _dead(situation, use))]
    if len(dead) == len(roads):
        return f"Nothing reaches {subject}: its traffic goes into {listed(dead)}{_instead(situation, roads[0])}"
    predicted = roads[0].evidence == "route"
    lead = f"New connections to {subject} would go" if predicted else f"{subject} is reached"
    ways = _one_road(situation, roads[0]) if len(roads) == 1 else _roads(situation, roads)
    return f"{lead} by {ways}{_silence(situation)}"


def _subject(situation: Situation) -> str:
    """The storage with the address in use, and the folder that was asked about: /media on vault (10.44.20.10)."""
    name, mount = situation.storage_name, situation.seen.mount
    every = tuple(each.address for each in situation.seen.addresses)
    addresses = listed([str(address) for address in situation.remotes or every] or [name])
    storage = name if name == addresses else f"{name} ({addresses})"
    return storage if mount is None else f"{mount.folder} on {storage}"


def _is_here(situation: Situation) -> bool:
    """Whether the storage is this machine."""
    asked = situation.remotes or tuple(each.address for each in situation.seen.addresses)
    known = [far for address in asked if (far := situation.address(address)) is not None]
    return bool(known) and all(far.is_here for far in known)


def _no_road(situation: Situation, subject: str) -> str:
    addresses = situation.seen.addresses
    if not addresses:
        return f"{subject} has no address that this machine can find"
    reasons = list(dict.fromkeys(each.no_route for each in addresses if each.no_route))
    if reasons:
        return f"No route leads from this machine to {subject}: {'; '.join(reasons)}"
    return f"This system does not tell which way packets to {subject} leave"


def _dead(situation: Situation, use: Use) -> str:
    """Why nothing can go through an interface; empty where it is alive or nothing says otherwise."""
    state = situation.seen.interfaces.get(use.interface)
    if state is not None and state.up is False:
        return ", which is switched off"
    return ", which has no link" if state is not None and state.carrier is False else ""


def _instead(situation: Situation, use: Use) -> str:
    """The planned port, where another one is meant."""
    return "" if situation.is_planned(use.interface) else _against_plan(situation, use)


def _one_road(situation: Situation, use: Use) -> str:
    """The only interface in use with its rate, held against the plan."""
    under = next((name for name in situation.stack(use.interface) if name in situation.planned_names), use.interface)
    state, wanted = situation.seen.interfaces.get(under), _missed_rate(situation, under)
    if wanted is None or state is None or state.rate_bit_per_s is None:
        return f"{use.interface}{_rate(situation, use.interface)}{_against_plan(situation, use)}"
    rates = f"{both_rates_text(state.rate_bit_per_s)} instead of {both_rates_text(wanted)}"
    return f"{use.interface}{_against_plan(situation, use)}, but at {rates}"


def _roads(situation: Situation, roads: tuple[Use, ...]) -> str:
    """Every interface in use with its rate, and which of them is meant."""
    told = [
        f"{situation.named(use.interface)}{_dead(situation, use) or _rate(situation, use.interface)}"
        f"{', as planned' if situation.is_planned(use.interface) else ''}"
        for use in roads
    ]
    astray = situation.planned_road is not None and not any(situation.is_planned(use.interface) for use in roads)
    missing = f"; none of them is {situation.planned_way} as planned" if astray else ""
    return f"{len(roads)} ports at once: {'; '.join(told)}{missing}"


def _rate(situation: Situation, interface: str) -> str:
    """How fast an interface is, and what it is where that is no cable."""
    state = situation.seen.interfaces.get(interface)
    kind = situation.medium(interface)
    if kind == "tunnel" and (state is None or state.rate_bit_per_s is None):
        return ", a tunnel"
    what = {"radio": ", Wi-Fi", "tunnel": ", a tunnel"}.get(kind, "")
    return f"{what} at {link_rate_text(state)}"


def _missed_rate(situation: Situation, interface: str) -> int | None:
    """The rate that the plan expects of the planned port, where it runs at less [bit/s]."""
    state = situation.seen.interfaces.get(interface)
    expected = situation.expected_port(interface)
    if state is None or expected is None or expected != situation.planned_port or situation.through_air(interface):
        return None
    now, planned = state.rate_bit_per_s, expected.agreed_bit_per_s
    if now is None or planned is None or state.made_up_rate:
        return None
    return planned if now < planned else None


def _against_plan(situation: Situation, use: Use) -> str:
    """Whether an interface is the planned one."""
    expected, road = situation.expected, situation.planned_road
    if expected is None:
        return ""
    if expected.storage is None:
        return f"; {expected.plan} has no storage of that name or address"
    if road is None:
        return f"; {expected.plan} has no road from {expected.station} to {expected.storage}"
    if situation.is_planned(use.interface):
        return f", as planned ({road.from_port}){_beside_the_planned_end(situation)}"
    if use.interface not in situation.plan_ports and not _surely_another(situation, use.interface):
        return f"; whether that is {road.from_port}, as planned, is not known"
    return f", not by {situation.planned_way} as planned"


def _beside_the_planned_end(situation: Situation) -> str:
    """What to add where no address in use is one that the plan has at the end of its road."""
    expected, used = situation.expected, situation.remotes
    planned = () if expected is None else expected.planned_addresses
    if not planned or not used or any(address in planned for address in used):
        return ""
    return f", though the plan has {situation.storage_name} at {listed([str(address) for address in planned])}"


def _surely_another(situation: Situation, interface: str) -> bool:
    """Whether an interface that was not recognised cannot be the planned one: that one is another, or has a cable."""
    planned, no_cable = situation.planned_port, situation.medium(interface) in ("radio", "tunnel")
    return bool(situation.planned_names) or (no_cable and planned is not None and not planned.radio)


def _silence(situation: Situation) -> str:
    """What is heard from the addresses in use, where no service answers."""
    fars = situation.used_addresses
    knocks = {port: knock for far in fars for port, knock in far.knocks.items()}
    outcomes = {knock.outcome for far in fars for knock in far.knocks.values()}
    if not outcomes or "open" in outcomes:
        return ""
    if outcomes == {"blocked"}:
        return "; but this system forbids this program to ask there, so that nothing is known of the storage"
    if "refused" in outcomes:
        refused = [service_text(port) for port, knock in knocks.items() if knock.outcome == "refused"]
        return f"; {situation.storage_name} refuses {listed(refused)}"
    return "; but nothing answers there"
