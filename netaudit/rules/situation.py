"""How an observation is held against a plan: what was recognised, what carries the traffic, and where things are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from netaudit.model.expectation import Expectation
from netaudit.model.observation import Observation, most_likely
from netaudit.model.place import Place, PortRef
from netaudit.model.situation import Situation, Use
from netaudit.model.vocabulary import Address
from netaudit.rules.sent import Strayed, strayed


def situate(seen: Observation, expected: Expectation | None) -> Situation:
    """Hold an observation against what a plan expects."""
    plan_ports = {} if expected is None else dict(_recognised(seen, expected))
    bare = Situation(seen, expected, plan_ports, ())
    return bare._replace(uses=tuple(dict.fromkeys(_uses(seen, strayed(bare)))))


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


def _uses(seen: Observation, strays: Mapping[str, Strayed]) -> Iterator[Use]:
    """What carries the traffic: what the client reports, else the living sessions, else the route.

    Only what the client itself says of its interface is believed against the counters.
    """
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
        for session in seen.file_sessions
        if (name := session.interface or owner.get(session.local.address)) is not None
    ]
    routed = [
        Use(each.route.interface, "route", each.address, each.route.source)
        for each in most_likely(seen.addresses)
        if each.route is not None
    ]
    told = {channel.interface for channel in seen.channels}
    for use in channels or sessions or routed[:1]:
        stray = None if use.interface in told else strays.get(use.interface)
        yield use if stray is None else Use(stray.interface, "counters", use.remote, use.local, stray.counted)
