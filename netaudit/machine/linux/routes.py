"""Where a connection goes: the kernel's own route look-up, asked as that very connection would be routed.

Policy rules may choose by source, protocol, port and user, so all of them are part of the question. Layouts:
linux/rtnetlink.h.
"""

from __future__ import annotations

import errno
import os
import socket
import struct
from ipaddress import ip_network
from typing import NamedTuple

from netaudit.machine.linux import netlink
from netaudit.machine.linux.netlink import address, attributes, number
from netaudit.machine.questions import RouteAnswer
from netaudit.model.machine_state import Endpoint, Route
from netaudit.model.vocabulary import Address, Subnet

_GET_ROUTE = 26
_LOOKUP_TABLE, _FIB_MATCH = 0x1000, 0x2000
_RTMSG = struct.Struct("=BBBBBBBBI")
_DST, _SRC, _OIF, _GATEWAY, _PRIORITY, _PREFSRC, _METRICS = 1, 2, 4, 5, 6, 7, 8
_TABLE, _VIA, _UID, _IP_PROTO, _SPORT, _DPORT = 15, 18, 25, 27, 28, 29
_METRIC_MTU = 2
_MAIN_TABLES = (0, 254, 255)
"""Unsaid, main, and the local table, which `Route.local` tells."""
_UNICAST, _LOCAL = 1, 2
_WHY_NOT = {
    errno.EINVAL: "a blackhole route swallows it",
    errno.EACCES: "Permission denied (a prohibit route)",
    errno.ENETUNREACH: "Network is unreachable",
    errno.EHOSTUNREACH: "No route to host",
    errno.ENETDOWN: "Network is down",
    errno.ENODEV: "the interface is not there any more",
}
_NO_TCP = {
    3: "a broadcast address takes no connection",
    4: "an anycast address of this machine takes no connection",
    5: "a multicast address takes no connection",
    6: _WHY_NOT[errno.EINVAL],
    7: _WHY_NOT[errno.EHOSTUNREACH],
    8: _WHY_NOT[errno.EACCES],
}
"""Kinds of route that lead nowhere."""


class Found(NamedTuple):
    """What one look-up answered."""

    family: int
    kind: int
    prefix_bits: int
    table: int
    values: dict[int, bytes]


def route(remote: Endpoint, local: Endpoint | None = None, uid: int | None = None) -> RouteAnswer:
    """Where a TCP connection to `remote` goes now.

    A new connection over IPv4 is looked up twice, as the kernel does it: for its source, then with that source, which a
    policy rule may send elsewhere (ip_route_connect in include/net/route.h). The user is the one who asks, unless
    another is named. Raises AnswerError and MachineError as netlink does.
    """
    asker = os.getuid() if uid is None else uid
    try:
        question = _question(remote, local, asker)
        found = parse(_look_up(question, _LOOKUP_TABLE, remote.address))
        source = address(found.values.get(_PREFSRC))
        if local is None and found.family == socket.AF_INET and source is not None:
            local = Endpoint(source, 0)
            question = _question(remote, local, asker)
            found = parse(_look_up(question, _LOOKUP_TABLE, remote.address))
    except _NothingToAskError as error:
        return RouteAnswer(None, str(error))
    except OSError as error:
        why_not = _why_not(error, local)
        if why_not is None:
            raise netlink.refusal(error) from error
        return RouteAnswer(None, why_not)
    if found.kind not in (_UNICAST, _LOCAL):
        return RouteAnswer(None, _NO_TCP.get(found.kind, f"a route of kind {found.kind} takes no connection"))
    try:
        matched = parse(_look_up(question, _LOOKUP_TABLE | _FIB_MATCH, remote.address))
    except OSError:
        matched = None
    return _answer(found, matched, local)


def parse(body: bytes) -> Found:
    """What a look-up answered; a body that is cut short is a route of no kind."""
    if len(body) < _RTMSG.size:
        return Found(0, 0, 0, 0, {})
    family, prefix_bits, _, _, table, _, _, kind, _ = _RTMSG.unpack_from(body)
    values = attributes(body[_RTMSG.size :])
    return Found(family, kind, prefix_bits, number(values.get(_TABLE)) or table, values)


class _NothingToAskError(Exception):
    """Why there is nothing to ask."""


def _question(remote: Endpoint, local: Endpoint | None, uid: int) -> bytes:
    """The attributes of the question."""
    parts = [
        netlink.attribute(_DST, remote.address.packed),
        netlink.attribute(_IP_PROTO, bytes([socket.IPPROTO_TCP])),
        netlink.attribute(_DPORT, struct.pack("!H", remote.port)),
        netlink.number_attribute(_UID, uid),
    ]
    if local is not None:
        parts.append(netlink.attribute(_SRC, local.address.packed))
        if local.port:
            parts.append(netlink.attribute(_SPORT, struct.pack("!H", local.port)))
    number_of_link = _scope(remote.address)
    if number_of_link is not None:
        parts.append(netlink.number_attribute(_OIF, number_of_link))
    return b"".join(parts)


def _scope(remote: Address) -> int | None:
    """The number of the interface that an address of one link belongs to."""
    if remote.version == 4 or not remote.is_link_local:
        return None
    scope = remote.scope_id
    if scope is None:
        raise _NothingToAskError(f"{remote} is only valid on one link: add its interface, as {remote}%eth0")
    try:
        return int(scope) if scope.isdecimal() else socket.if_nametoindex(scope)
    except OSError as error:
        raise _NothingToAskError(f"there is no interface {scope}") from error


def _look_up(question: bytes, flags: int, remote: Address) -> bytes:
    family = socket.AF_INET if remote.version == 4 else socket.AF_INET6
    head = _RTMSG.pack(family, remote.max_prefixlen, 0, 0, 0, 0, 0, 0, flags)
    return netlink.ask(netlink.ROUTE, _GET_ROUTE, head + question).body


def _why_not(error: OSError, local: Endpoint | None) -> str | None:
    """Why there is no route; None where the refusal does not mean that.

    Kernels refuse a source that is not theirs with the same numbers.
    """
    words = _WHY_NOT.get(error.errno or 0)
    if words is not None and local is not None and not _is_own(local.address):
        return f"{local.address} is not an address of this machine any more"
    return words


def _is_own(own: Address) -> bool:
    try:
        return parse(_look_up(netlink.attribute(_DST, own.packed), _LOOKUP_TABLE, own)).kind == _LOCAL
    except OSError:
        return False


def _answer(found: Found, matched: Found | None, local: Endpoint | None) -> RouteAnswer:
    interface = _name(found)
    if interface is None:
        return RouteAnswer(None, "the route leads to an interface that is not there any more")
    source = address(found.values.get(_PREFSRC), interface) or (None if local is None else local.address)
    values = {} if matched is None else matched.values
    return RouteAnswer(
        Route(
            interface=interface,
            source=source,
            gateway=address(found.values.get(_GATEWAY), interface) or _gateway_of_other_family(found, interface),
            prefix=None if matched is None else _prefix(matched),
            metric=None if matched is None else number(values.get(_PRIORITY)) or 0,
            table=None if found.table in _MAIN_TABLES else str(found.table),
            mtu=number(attributes(found.values.get(_METRICS, b"")).get(_METRIC_MTU)),
            local=found.kind == _LOCAL,
        )
    )


def _name(found: Found) -> str | None:
    try:
        return socket.if_indextoname(number(found.values.get(_OIF)) or 0)
    except OSError:
        return None


def _gateway_of_other_family(found: Found, interface: str) -> Address | None:
    """A router of IPv6 for packets of IPv4: its family stands before its address."""
    return address(found.values.get(_VIA, b"")[2:], interface)


def _prefix(matched: Found) -> Subnet | None:
    """The route that was matched; the default route has no destination."""
    destination = address(matched.values.get(_DST))
    if destination is None:
        if matched.prefix_bits:
            return None
        return ip_network("0.0.0.0/0" if matched.family == socket.AF_INET else "::/0")
    try:
        return ip_network((destination.packed, matched.prefix_bits))
    except ValueError:
        return None
