"""The answer of a probe in one sentence: which port carries the storage's traffic, how fast, and whether as planned."""

from __future__ import annotations

from netaudit.model.diagnosis import Diagnosis, Use
from netaudit.model.machine_state import Interface
from netaudit.model.services import service_text
from netaudit.report.probe import roles
from netaudit.report.probe.spelling import clean, link_rate_text
from netaudit.report.words import listed
from netaudit.units import both_rates_text


def sentence(diagnosis: Diagnosis) -> str:
    """The answer; true of a first look too, at which only addresses, routes, interfaces and sessions are known."""
    return clean(f"{_answer(diagnosis)}.")


def storage_name(diagnosis: Diagnosis) -> str:
    """The storage as the plan calls it, or else as it was asked about."""
    expected = diagnosis.expectation
    planned = None if expected is None else expected.storage
    return planned or diagnosis.observation.host


def _answer(diagnosis: Diagnosis) -> str:
    subject = _subject(diagnosis)
    if _is_here(diagnosis):
        return f"{subject} is this machine itself: its traffic leaves by no port{_silence(diagnosis)}"
    if not diagnosis.uses:
        return _no_road(diagnosis, subject)
    roads = tuple({use.interface: use for use in diagnosis.uses}.values())
    dead = [f"{_name(diagnosis, use)}{why}" for use in roads if (why := _dead(diagnosis, use))]
    if len(dead) == len(roads):
        return f"Nothing reaches {subject}: its traffic goes into {listed(dead)}{_instead(diagnosis, roads[0])}"
    predicted = roads[0].evidence == "route"
    lead = f"New connections to {subject} would go" if predicted else f"{subject} is reached"
    ways = _one_road(diagnosis, roads[0]) if len(roads) == 1 else _roads(diagnosis, roads)
    return f"{lead} by {ways}{_silence(diagnosis)}"


def _subject(diagnosis: Diagnosis) -> str:
    """The storage with the address in use, and the folder that was asked about: /media on vault (10.44.20.10)."""
    name, mount = storage_name(diagnosis), diagnosis.observation.mount
    every = tuple(each.address for each in diagnosis.observation.addresses)
    addresses = listed([str(address) for address in roles.used_addresses(diagnosis) or every] or [name])
    storage = name if name == addresses else f"{name} ({addresses})"
    return storage if mount is None else f"{mount.folder} on {storage}"


def _is_here(diagnosis: Diagnosis) -> bool:
    """Whether the storage is this machine."""
    asked = roles.used_addresses(diagnosis) or tuple(each.address for each in diagnosis.observation.addresses)
    known = [roles.far_address(diagnosis, address) for address in asked]
    routes = [each.route for each in known if each is not None]
    return bool(routes) and all(route is not None and route.local for route in routes)


def _no_road(diagnosis: Diagnosis, subject: str) -> str:
    addresses = diagnosis.observation.addresses
    if not addresses:
        return f"{subject} has no address that this machine can find"
    reasons = list(dict.fromkeys(each.no_route for each in addresses if each.no_route))
    if reasons:
        return f"No route leads from this machine to {subject}: {'; '.join(reasons)}"
    return f"This system does not tell which way packets to {subject} leave"


def _dead(diagnosis: Diagnosis, use: Use) -> str:
    """Why nothing can go through an interface; empty where it is alive or nothing says otherwise."""
    state = diagnosis.observation.interfaces.get(use.interface)
    if state is not None and state.up is False:
        return ", which is switched off"
    return ", which has no link" if state is not None and state.carrier is False else ""


def _name(diagnosis: Diagnosis, use: Use) -> str:
    """An interface with the port of the plan that it is: en5 (cut-1/wire)."""
    port = diagnosis.plan_ports.get(use.interface)
    return use.interface if port is None else f"{use.interface} ({port})"


def _instead(diagnosis: Diagnosis, use: Use) -> str:
    """The planned port, where another one is meant."""
    return "" if _is_planned(diagnosis, use) else _against_plan(diagnosis, use)


def _one_road(diagnosis: Diagnosis, use: Use) -> str:
    """The only interface in use with its rate, held against the plan."""
    state = diagnosis.observation.interfaces.get(use.interface)
    wanted = _missed_rate(diagnosis, use)
    if wanted is None or state is None or state.rate_bit_per_s is None:
        return f"{use.interface}{_rate(diagnosis, use.interface)}{_against_plan(diagnosis, use)}"
    rates = f"{both_rates_text(state.rate_bit_per_s)} instead of {both_rates_text(wanted)}"
    return f"{use.interface}{_against_plan(diagnosis, use)}, but at {rates}"


def _roads(diagnosis: Diagnosis, roads: tuple[Use, ...]) -> str:
    """Every interface in use with its rate, and which of them is meant."""
    port = roles.planned_port(diagnosis)
    told = [
        f"{_name(diagnosis, use)}{_dead(diagnosis, use) or _rate(diagnosis, use.interface)}"
        f"{', as planned' if _is_planned(diagnosis, use) else ''}"
        for use in roads
    ]
    none_planned = port is not None and not any(_is_planned(diagnosis, use) for use in roads)
    missing = f"; none of them is {_planned_name(diagnosis)} as planned" if none_planned else ""
    return f"{len(roads)} ports at once: {'; '.join(told)}{missing}"


def _is_planned(diagnosis: Diagnosis, use: Use) -> bool:
    """Whether an interface was recognised as the planned port."""
    port = roles.planned_port(diagnosis)
    return port is not None and diagnosis.plan_ports.get(use.interface) == port


def _rate(diagnosis: Diagnosis, interface: str) -> str:
    """How fast an interface is, and what it is where that is no cable."""
    state: Interface | None = diagnosis.observation.interfaces.get(interface)
    kind = roles.medium(diagnosis, interface)
    if kind == "tunnel" and (state is None or state.rate_bit_per_s is None):
        return ", a tunnel"
    what = {"radio": ", Wi-Fi", "tunnel": ", a tunnel"}.get(kind, "")
    return f"{what} at {link_rate_text(state)}"


def _missed_rate(diagnosis: Diagnosis, use: Use) -> int | None:
    """The rate that the plan expects of the planned port, where it runs at less [bit/s]."""
    state = diagnosis.observation.interfaces.get(use.interface)
    expected = roles.expected_port(diagnosis, use.interface)
    if state is None or expected is None or expected.radio or expected.port != roles.planned_port(diagnosis):
        return None
    now, planned = state.rate_bit_per_s, expected.agreed_bit_per_s
    if now is None or planned is None or state.made_up_rate:
        return None
    return planned if now < planned else None


def _against_plan(diagnosis: Diagnosis, use: Use) -> str:
    """Whether an interface is the planned one."""
    expected, port = diagnosis.expectation, roles.planned_port(diagnosis)
    if expected is None:
        return ""
    if expected.storage is None:
        return f"; {expected.plan} has no storage of that name or address"
    if port is None:
        return f"; {expected.plan} has no road from {expected.station} to {expected.storage}"
    known = diagnosis.plan_ports.get(use.interface)
    if known == port:
        return f", as planned ({port}){_beside_the_planned_end(diagnosis)}"
    if known is None and not _surely_another(diagnosis, use.interface):
        return f"; whether that is {port}, as planned, is not known"
    return f", not by {_planned_name(diagnosis)} as planned"


def _beside_the_planned_end(diagnosis: Diagnosis) -> str:
    """What to add where no address in use is one that the plan has at the end of its road."""
    expected, used = diagnosis.expectation, roles.used_addresses(diagnosis)
    planned = () if expected is None else expected.planned_addresses
    if not planned or not used or any(address in planned for address in used):
        return ""
    return f", though the plan has {storage_name(diagnosis)} at {listed([str(address) for address in planned])}"


def _surely_another(diagnosis: Diagnosis, interface: str) -> bool:
    """Whether an interface that was not recognised cannot be the planned one: that one is another, or has a cable."""
    expected, port = diagnosis.expectation, roles.planned_port(diagnosis)
    planned = None if expected is None or port is None else expected.ports.get(port.port)
    through_air = roles.medium(diagnosis, interface) in ("radio", "tunnel")
    return roles.planned_interface(diagnosis) is not None or (through_air and planned is not None and not planned.radio)


def _planned_name(diagnosis: Diagnosis) -> str:
    """The planned port with its interface, where that is recognised: en5 (cut-1/wire)."""
    interface, port = roles.planned_interface(diagnosis), roles.planned_port(diagnosis)
    return str(port) if interface is None else f"{interface} ({port})"


def _silence(diagnosis: Diagnosis) -> str:
    """What is heard from the addresses in use, where no service answers."""
    fars = [far for each in roles.used_addresses(diagnosis) if (far := roles.far_address(diagnosis, each))]
    knocks = {port: knock for far in fars for port, knock in far.knocks.items()}
    outcomes = {knock.outcome for far in fars for knock in far.knocks.values()}
    if not outcomes or "open" in outcomes:
        return ""
    if outcomes == {"blocked"}:
        return "; but this system forbids this program to ask there, so that nothing is known of the storage"
    if "refused" in outcomes:
        refused = [service_text(port) for port, knock in knocks.items() if knock.outcome == "refused"]
        return f"; {storage_name(diagnosis)} refuses {listed(refused)}"
    return "; but nothing answers there"
