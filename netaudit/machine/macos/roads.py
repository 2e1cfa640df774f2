"""The roads of a Mac: the kernel's own connections first, then the look-up, which only predicts a new one."""

from __future__ import annotations

import socket
from collections.abc import Collection, Mapping
from contextlib import closing

from netaudit.errors import AnswerError
from netaudit.machine import commands
from netaudit.machine.macos.asking import NETSTAT, TABLE_S, beside, text
from netaudit.machine.macos.links import blocks, owner_of
from netaudit.machine.parse.literals import address_of, without_zone
from netaudit.machine.parse.macos.ifconfig import Block
from netaudit.machine.parse.macos.netstat_routes import network_behind, parse_netstat_routes
from netaudit.machine.parse.macos.netstat_sessions import Socket, parse_netstat_sessions
from netaudit.machine.parse.macos.nettop import Flow, parse_nettop
from netaudit.machine.parse.macos.route_get import RouteGet, parse_route_get, refusal
from netaudit.machine.questions import RouteAnswer
from netaudit.machine.sockets import family, on_link, socket_address
from netaudit.model.machine_state import Endpoint, Route, Session, SessionCount
from netaudit.model.vocabulary import Address

ROUTE = "/sbin/route"
NETTOP = "/usr/bin/nettop"
NETTOP_S = 4.0
"""Wait for one sample of the traffic monitor [s]."""
ANY_PORT = 9
"""Port of the discard service (RFC 863): a socket is aimed at it and nothing is ever sent."""


def route(remote: Endpoint) -> RouteAnswer:
    """Where a new connection would go."""
    answer = _asked(remote.address)
    if isinstance(answer, str):
        return RouteAnswer(None, answer)
    return RouteAnswer(_route(answer, remote.address, _source(answer, remote.address, blocks())))


def sessions(remotes: Collection[Address], ports: Collection[int]) -> tuple[Session, ...]:
    """Established connections to some ports of some addresses, or of any where none is given.

    Those of the kernel's file clients are among them.
    """
    wanted = {without_zone(address) for address in remotes}
    living = [
        each
        for each in parse_netstat_sessions(text(NETSTAT, "-anvl", "-p", "tcp"))
        if each.state == "ESTABLISHED"
        and each.remote.port in ports
        and (not wanted or without_zone(each.remote.address) in wanted)
    ]
    if not living:
        return ()
    flows = beside(lambda: parse_nettop(text(NETTOP, "-m", "tcp", "-n", "-x", "-L", "1", timeout_s=NETTOP_S))) or ()
    by_ends = {(flow.local, flow.remote): flow for flow in flows}
    found = blocks()
    return tuple(_session(each, by_ends.get((each.local, each.remote)), found) for each in living)


def source_towards(address: Address) -> Address | None:
    """The address that a new connection would bear: a socket is aimed, and nothing is sent."""
    try:
        with closing(socket.socket(family(address), socket.SOCK_DGRAM)) as aimed:
            aimed.connect(socket_address(Endpoint(address, ANY_PORT)))
            return address_of(str(aimed.getsockname()[0]))
    except OSError:
        return None


def _asked(address: Address) -> RouteGet | str:
    """The kernel's answer, or its words for there being none; the exit code is 0 in both cases."""
    kind = "-host" if address.version == 4 else "-inet6"
    said = commands.run([ROUTE, "-n", "get", kind, str(address)], TABLE_S)
    found = parse_route_get(said.text, address)
    if found is not None:
        return found
    if "routing socket" in said.errors or "indicates error" in said.errors:
        return refusal(said.errors)
    raise AnswerError(f"route gave no answer for {address}")


def _route(found: RouteGet, remote: Address, source: Address | None) -> Route:
    prefix = found.destination
    if found.cloned:
        family_name = "inet" if remote.version == 4 else "inet6"
        rows = beside(lambda: parse_netstat_routes(text(NETSTAT, "-rn", "-f", family_name))) or ()
        prefix = network_behind(rows, remote, found.interface)
    return Route(found.interface, source, found.gateway, prefix, mtu=found.mtu, local=found.local)


def _source(found: RouteGet, remote: Address, owners: Mapping[str, Block]) -> Address | None:
    """The kernel's choice where it lies on the interface of the route, else the one address there can be."""
    block = owners.get(found.interface)
    own = [] if block is None else [each.ip for each in block.addresses if each.version == remote.version]
    chosen = source_towards(on_link(remote, found.interface))
    if chosen is not None and (found.local or without_zone(chosen) in map(without_zone, own)):
        return chosen
    return own[0] if len(own) == 1 and not found.local else None


def _session(each: Socket, flow: Flow | None, found: Mapping[str, Block]) -> Session:
    interface = (flow and flow.interface) or getattr(each.local.address, "scope_id", None)
    return Session(
        local=each.local,
        remote=each.remote,
        interface=interface or owner_of(each.local.address, found),
        tcp=_count(each, flow),
        round_trip_s=flow.round_trip_s if flow else None,
        owner=each.process or (flow.process if flow else None),
    )


def _count(each: Socket, flow: Flow | None) -> SessionCount:
    sent, received = (each.sent_bytes, each.received_bytes)
    if flow is None:
        return SessionCount(sent, received)
    return SessionCount(
        sent_bytes=flow.sent_bytes if sent is None else sent,
        received_bytes=flow.received_bytes if received is None else received,
        retransmitted_bytes=flow.retransmitted_bytes,
    )
