"""What a probe saw as tables: the facts of a row that matter at a glance, and behind them the finer ones."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from statistics import median
from typing import NamedTuple

from netaudit.listing import listed
from netaudit.model.machine_state import Interface
from netaudit.model.observation import FarAddress, Origin, Outcome
from netaudit.model.services import service_name
from netaudit.model.situation import Situation
from netaudit.model.vocabulary import Address
from netaudit.report.probe.spelling import MEDIA, link_rate_text, yes_no
from netaudit.units import both_rates_text, duration_text

UNKNOWN = "not known"
OUTCOMES: dict[Outcome, str] = {
    "open": "open",
    "refused": "refused",
    "silent": "silent",
    "unreachable": "no way there",
    "blocked": "forbidden here",
}
"""How a service answers, in a word or two."""
ORIGINS: dict[Origin, str] = {
    "literal": "as typed",
    "hosts": "from the hosts file",
    "dns": "from the name server",
    "mdns": "by mDNS",
    "mount": "from the mount",
    "plan": "from the plan",
}
"""Where an address comes from, in words."""


class Row(NamedTuple):
    """A line of a table."""

    cells: tuple[str, ...]
    finer: tuple[str, ...] = ()
    """Facts that are told behind or beneath it, each with its name."""


class Table(NamedTuple):
    """Facts of one kind; its title is a heading."""

    title: str
    head: tuple[str, ...]
    """Names of the columns; empty for plain lines."""
    rows: tuple[Row, ...]


def addresses(situation: Situation) -> Table:
    """The storage's addresses: the way there and what answers."""
    rows = tuple(_address_row(situation, far) for far in situation.seen.addresses)
    head = ("address", "would go by", "in use", "round trip", "packets", "services")
    return Table(f"Addresses of {situation.storage_name}", head, rows)


def _address_row(situation: Situation, far: FarAddress) -> Row:
    in_use = far.address in situation.remotes
    trip_s = round_trip_s(far)
    cells = (
        str(far.address),
        "nowhere" if far.no_route else UNKNOWN if far.route is None else far.route.interface,
        "yes" if in_use else "no",
        UNKNOWN if trip_s is None else duration_text(trip_s),
        UNKNOWN if far.path_mtu is None else f"to {far.path_mtu}",
        ", ".join(f"{service_name(port)} {OUTCOMES[knock.outcome]}" for port, knock in far.knocks.items()) or UNKNOWN,
    )
    return Row(cells, tuple(_finer_of_address(situation, far)))


def _finer_of_address(situation: Situation, far: FarAddress) -> Iterator[str]:
    expected = situation.expected
    if expected is not None and far.address in expected.planned_addresses:
        yield "planned"
    yield ORIGINS[far.origin]
    if far.no_route:
        yield far.no_route
    if far.route is not None:
        yield f"own address {far.route.source}" if far.route.source else "own address not known"
        yield "no router" if far.route.gateway is None else f"router {far.route.gateway}"
        if far.route.metric is not None:
            yield f"metric {far.route.metric}"
        if far.route.table is not None:
            yield f"table {far.route.table}"
    if far.routers and (far.route is None or far.routers != (far.route.gateway,)):
        yield f"through {listed([str(router) for router in far.routers])}"
    if far.neighbours is not None and far.neighbours.macs:
        how = "hardware address" if far.neighbours.asked else "hardware address on record"
        yield f"{how} {listed(far.neighbours.macs)}"
    lost = [f"{test.size_octets}" for test in far.frames if test.passed is False]
    if lost:
        yield f"packets of {listed(lost)} octets do not pass"
    yield from _handshakes(far)


def _handshakes(far: FarAddress) -> Iterator[str]:
    """How the handshakes with an address fared: how many, between which times, how many lost."""
    trips_s = [trip_s for knock in far.knocks.values() for trip_s in knock.round_trips_s]
    if len(trips_s) > 1:
        yield f"{len(trips_s)} handshakes of {duration_text(min(trips_s))} to {duration_text(max(trips_s))}"
    missing = sum(knock.lost for knock in far.knocks.values())
    if missing:
        yield "1 handshake lost" if missing == 1 else f"{missing} handshakes lost"


def round_trip_s(far: FarAddress) -> float | None:
    """The median of the handshakes with an address [s]."""
    trips_s = [trip_s for knock in far.knocks.values() for trip_s in knock.round_trips_s]
    return median(trips_s) if trips_s else None


def interfaces_that_matter(situation: Situation) -> tuple[Interface, ...]:
    """Interfaces that are in use, in the plan, or have an address; those in use first."""
    seen = situation.seen.interfaces
    used = [seen[name] for name in situation.used_names if name in seen]
    named = [state for name, state in seen.items() if name in situation.plan_ports]
    addressed = [state for state in seen.values() if any(not host.is_loopback for host in state.hosts)]
    return tuple({state.name: state for state in (*used, *named, *addressed)}.values())


def links(situation: Situation) -> Table:
    """The interfaces that matter, held against the plan."""
    rows = tuple(_link_row(situation, state) for state in interfaces_that_matter(situation))
    return Table("Ports of this machine", ("port", "plan", "in use", "kind", "link", "rate"), rows)


def _link_row(situation: Situation, state: Interface) -> Row:
    port = situation.plan_ports.get(state.name)
    link = "off" if state.up is False else yes_no(state.carrier, "up", "none")
    cells = (
        state.name,
        "-" if port is None else str(port),
        yes_no(state.name in situation.used_names),
        MEDIA[situation.medium(state.name)],
        link,
        UNKNOWN if state.rate_bit_per_s is None else link_rate_text(state),
    )
    return Row(cells, tuple(_finer_of_link(situation, state)))


def _finer_of_link(situation: Situation, state: Interface) -> Iterator[str]:
    if state.title:
        yield state.title
    expected = situation.expected_port(state.name)
    if expected is not None and expected.radio and state.medium != "radio":
        yield f"{MEDIA['radio']} by the plan, {MEDIA[state.medium]} by the system"
    if expected is not None and expected.agreed_bit_per_s is not None:
        yield f"planned {both_rates_text(expected.agreed_bit_per_s)}"
    if state.addresses:
        yield listed([str(address) for address in state.addresses])
    yield from _settings(state)
    for name, rates in (("offers", state.offered), ("far end offers", state.partner)):
        if rates:
            yield f"{name} {rates_text(rates)}"
    if state.bus is not None:
        yield f"bus {state.bus.text}" + (f", at best {state.bus.best_text}" if state.bus.best_text else "")
    if state.carrier_changes is not None:
        yield link_changes(state.carrier_changes)
    yield _errors_so_far(state.counters.errors)


def _settings(state: Interface) -> Iterator[str]:
    """What an interface is set to, where that is known."""
    if state.duplex is not None:
        yield f"{state.duplex} duplex"
    if state.mtu is not None:
        yield f"packets to {state.mtu} octets"
    if state.mac is not None:
        yield state.mac
    if state.parent is not None:
        yield f"over {state.parent}"


def rates_text(rates: tuple[int, ...]) -> str:
    """Rates that a port can run, the highest first."""
    return listed([both_rates_text(rate) for rate in rates])


def link_changes(count: int) -> str:
    """How often a link came or went."""
    often = {1: "once", 2: "twice"}.get(count, f"{count} times")
    return f"link changed {often}" if count else "link never changed"


def counted(errors: Mapping[str, int]) -> str:
    """Counters of errors that are not zero, by the system's own names."""
    return ", ".join(f"{name} {count}" for name, count in errors.items() if count)


def _errors_so_far(errors: Mapping[str, int]) -> str:
    """What a port has counted; a system that counts nothing has nothing to tell."""
    if not errors:
        return "errors not known"
    return f"errors so far: {counted(errors)}" if any(errors.values()) else "no errors"


def switch_port(situation: Situation) -> Table:
    """The switch port that this machine is plugged into; no rows where nobody listened or the switch is silent."""
    port = situation.seen.switch_port
    if port is None:
        return Table("Switch", (), ())
    finer = [f"{name} {value}" for name, value in (("VLAN", port.vlan), ("largest frame", port.mtu)) if value]
    own = situation.expected_port(port.interface)
    if own is not None and own.far_port is not None:
        finer.insert(0, f"the plan says {own.far_port}")
    cells = (f"{port.interface} is plugged into {port.switch or 'a switch'}, port {port.port or UNKNOWN}",)
    return Table("Switch", (), (Row(cells, tuple(finer + ([port.description] if port.description else []))),))


def storage(situation: Situation) -> Table:
    """What the storage and the file client say of their talk; unknown facts have no row."""
    seen = situation.seen
    smb = next((far.smb for far in seen.addresses if far.smb is not None), None)
    client = seen.client
    demanded = None if smb is None else smb.signing_required
    facts = (
        ("protocol", _protocol(client.dialect or (None if smb is None else smb.dialect))),
        ("session is signed", None if client.signing is None else yes_no(client.signing)),
        ("signing demanded", None if demanded is None else yes_no(demanded)),
        ("encryption", None if client.encryption is None else yes_no(client.encryption)),
        ("the server calls itself", None if smb is None else smb.identity),
        ("network managed by", seen.manager),
        ("order of services", ", ".join(seen.service_order) or None),
    )
    rows = [Row((name, value)) for name, value in facts if value is not None]
    rows += [Row(("offers", offer_text(offer.address, offer.rate_bit_per_s))) for offer in seen.offers or ()]
    return Table("Storage and system", (), tuple(rows))


def _protocol(dialect: str | None) -> str | None:
    """The file protocol with its version: SMB 3.1.1, NFS 4.2."""
    return dialect if dialect is None or " " in dialect else f"SMB {dialect}"


def offer_text(address: Address, rate_bit_per_s: int | None) -> str:
    """A port that the storage offers."""
    return f"{address}, " + (f"rate {UNKNOWN}" if rate_bit_per_s is None else both_rates_text(rate_bit_per_s))
