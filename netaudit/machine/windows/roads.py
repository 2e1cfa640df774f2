"""Where packets go on Windows: the route of a new connection, the living ones, the neighbours on the link."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.parse.literals import without_zone
from netaudit.machine.parse.windows.facts import AddressFacts, Connection, RouteFacts
from netaudit.machine.questions import RouteAnswer
from netaudit.machine.windows.links import by_number
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import Endpoint, Interface, Route, Session
from netaudit.model.vocabulary import Address

SYSTEM_PROCESS = 4
"""The process that holds the sockets of Windows itself, its file client's among them (from memory)."""


def route(ways: Ways, remote: Endpoint) -> RouteAnswer:
    """The best route by prefix and metric: a prediction, since the file client may choose pairs of ports by itself."""
    found = ways.either(lambda way: way.best_route(remote.address))
    if found.route is None:
        return RouteAnswer(None, found.why_not)
    best = found.route
    interfaces = by_number(ways)
    if best.number not in interfaces:
        raise AnswerError(
            f"the route to {remote.address} leaves by interface {best.number}, which Windows does not list"
        )
    own = {without_zone(host) for each in interfaces.values() for host in each.hosts}
    plain = without_zone(remote.address)
    return RouteAnswer(
        Route(
            interface=interfaces[best.number].name,
            source=best.source,
            gateway=best.gateway,
            prefix=best.prefix,
            metric=_metric(ways, best, remote.address.version),
            mtu=_path_mtu(ways, best, remote.address),
            local=plain.is_loopback or plain in own,
        )
    )


def _metric(ways: Ways, best: RouteFacts, version: int) -> int | None:
    """What routes of one prefix are compared by: the route's own metric and the interface's together."""
    more = best.interface_metric
    if more is None:
        settings = ways.either(lambda way: way.ip_interface(best.number, version))
        more = None if settings is None else settings.metric
    return None if best.metric is None or more is None else best.metric + more


def _path_mtu(ways: Ways, best: RouteFacts, remote: Address) -> int | None:
    if best.source is None:
        return None
    try:
        return ways.native.path_mtu(best.number, best.source, remote)
    except MachineError:
        return None


def sessions(ways: Ways, remotes: Collection[Address], ports: Collection[int]) -> tuple[Session, ...]:
    """Established connections to some addresses, or to any where none is given."""
    wanted = {without_zone(remote) for remote in remotes}
    found = [
        each
        for each in ways.either(lambda way: way.connections())
        if each.remote.port in ports and (not wanted or without_zone(each.remote.address) in wanted)
    ]
    return tuple(_sessions(ways, found)) if found else ()


def _sessions(ways: Ways, found: list[Connection]) -> Iterator[Session]:
    interfaces = by_number(ways)
    own = ways.either(lambda way: way.addresses())
    for each in found:
        yield Session(
            local=each.local,
            remote=each.remote,
            interface=_interface(ways, each, own, interfaces),
            owner=_owner(each.process),
        )


def _interface(
    ways: Ways, living: Connection, own: tuple[AddressFacts, ...], interfaces: Mapping[int, Interface]
) -> str | None:
    """Where the packets of a connection go.

    Windows sends a packet only by the interface that owns its source address, the strong host model of RFC 1122,
    3.3.4.2, unless that interface is set to the weak one: then the route decides.
    """
    local = without_zone(living.local.address)
    scope = str(getattr(living.local.address, "scope_id", None) or "")
    numbers = [each.number for each in own if each.address.ip == local and scope in ("", str(each.number))]
    if len(numbers) != 1 or numbers[0] not in interfaces:
        return None
    try:
        settings = ways.native.ip_interface(numbers[0], local.version)
        if settings is not None and settings.weak:
            best = ways.native.best_route(living.remote.address, living.local.address).route
            return None if best is None or best.number not in interfaces else interfaces[best.number].name
    except MachineError:
        return interfaces[numbers[0]].name
    return interfaces[numbers[0]].name


def _owner(process: int | None) -> str | None:
    if process is None:
        return None
    return "System" if process == SYSTEM_PROCESS else f"process {process}"


def neighbours(ways: Ways, address: Address) -> tuple[str, ...]:
    """Hardware addresses that the system holds for an address, on whichever link."""
    plain = without_zone(address)
    found = ways.either(lambda way: way.neighbours())
    return tuple(dict.fromkeys(each.mac for each in found if each.address == plain))
