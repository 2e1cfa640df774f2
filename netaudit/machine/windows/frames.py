"""What passes on the way to an address, by ICMP echo requests that may not be cut."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv6Address

from netaudit.errors import MachineError
from netaudit.machine.clock import Deadline
from netaudit.machine.windows.echo import EchoRequest
from netaudit.machine.windows.links import by_name
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import Route
from netaudit.model.observation import FrameTest
from netaudit.model.vocabulary import Address

ANSWERED, TOO_BIG, TIMED_OUT, HOPS_OVER = 0, 11009, 11010, 11013
"""IP_STATUS of ipexport.h."""
HEADERS_OCTETS = {4: 20 + 8, 6: 40 + 8}
"""IP and ICMP before the payload (RFC 791, 792, 8200, 4443)."""
HOP_TIMEOUT_S = 1.0
SILENT_IN_A_ROW = 2
"""Routers that do not answer, one behind the other, after which the search ends."""
_HOP_PAYLOAD_OCTETS = 32


def frame(ways: Ways, address: Address, size_octets: int, route: Route, timeout_s: float) -> FrameTest:
    """Send one packet of a size and wait for its answer; one that this machine itself would cut is not sent."""
    limit = _own_limit(ways, address, route)
    if limit is not None and size_octets > limit:
        return FrameTest(size_octets, None, "icmp", told_mtu=limit)
    local = route.source or _any(address)
    payload_octets = max(0, size_octets - HEADERS_OCTETS[address.version])
    status = ways.native.echo(EchoRequest(address, local, payload_octets, timeout_s)).status
    if status == TOO_BIG:
        return FrameTest(size_octets, passed=False, method="icmp", told_mtu=_learnt(ways, address, route))
    return FrameTest(size_octets, {ANSWERED: True, TIMED_OUT: False}.get(status), "icmp")


def _own_limit(ways: Ways, address: Address, route: Route) -> int | None:
    """The largest packet that this machine sends whole [octets].

    With IPv6 it cuts by itself whatever is larger than what it has learnt of the way, asked or not.
    """
    interface = by_name(ways).get(route.interface)
    limits = [
        None if interface is None else interface.mtu,
        _learnt(ways, address, route) if address.version == 6 else None,
    ]
    return min((limit for limit in limits if limit is not None), default=None)


def _learnt(ways: Ways, address: Address, route: Route) -> int | None:
    interface = by_name(ways).get(route.interface)
    if interface is None or interface.number is None or route.source is None:
        return None
    try:
        return ways.native.path_mtu(interface.number, route.source, address)
    except MachineError:
        return None


def routers(ways: Ways, address: Address, most: int, timeout_s: float) -> tuple[Address, ...]:
    """Routers on the way, found by requests that may be passed on once, twice …; a silent one is left out."""
    deadline, silent = Deadline(timeout_s), 0
    found: list[Address] = []
    for hops in range(1, most + 2):
        if deadline.over or silent == SILENT_IN_A_ROW or len(found) == most:
            break
        wait_s = deadline.at_most(HOP_TIMEOUT_S)
        echo = ways.native.echo(EchoRequest(address, _any(address), _HOP_PAYLOAD_OCTETS, wait_s, hops))
        silent = silent + 1 if echo.status == TIMED_OUT else 0
        if echo.status == HOPS_OVER and echo.responder is not None:
            found.append(echo.responder)
        if echo.status not in (HOPS_OVER, TIMED_OUT):
            break
    return tuple(dict.fromkeys(found))


def _any(address: Address) -> Address:
    """Leave the choice of the source address to Windows."""
    return IPv4Address(0) if address.version == 4 else IPv6Address(0)
