"""The routers on the way to an address: datagrams that may pass fewer and fewer routers, and who sends them back.

Sources: RFC 792 and RFC 4443 (time exceeded), ip(7) IP_TTL and IP_RECVERR. No privilege is needed.
"""

from __future__ import annotations

import select
import socket
from contextlib import closing
from ipaddress import ip_address

from netaudit.errors import AnswerError
from netaudit.machine.clock import Deadline
from netaudit.machine.linux.error_queue import ICMP, ICMP6, Told, keep_errors, next_error
from netaudit.machine.sockets import family, socket_address
from netaudit.model.machine_state import Endpoint
from netaudit.model.vocabulary import Address

FIRST_PORT = 33434
"""Where nobody listens: the ports that traceroute has always used."""
TIME_EXCEEDED = {4: 11, 6: 3}
"""ICMP types of RFC 792 and RFC 4443."""


def routers(address: Address, most: int, timeout_s: float) -> tuple[Address, ...]:
    """Routers on the way, the nearest first, at most so many; those that keep silent are left out.

    Empty where the address lies on the link. One datagram is sent for each, none after the address itself has answered.
    Raises AnswerError where nobody answered at all, where every router kept silent, or where nothing could be sent.
    """
    deadline, found = Deadline(timeout_s), list[Address]()
    for distance in range(1, most + 1):
        told = _told(address, distance, deadline.left_s / (most + 1 - distance))
        if told is None or told.offender is None:
            continue
        if _same(told.offender, address):
            return _checked(found, address, distance)
        found.append(told.offender)
        if told.kind != TIME_EXCEEDED[address.version]:
            break
    if not found:
        raise AnswerError(f"neither a router nor {address} itself answered within {timeout_s:g} s")
    return tuple(found)


def _checked(found: list[Address], address: Address, distance: int) -> tuple[Address, ...]:
    """Routers on the way to an address that answered; none found is true only of an address on the link."""
    if not found and distance > 1:
        raise AnswerError(f"{address} lies behind {distance - 1} routers that do not say who they are")
    return tuple(found)


def _told(address: Address, distance: int, timeout_s: float) -> Told | None:
    """What comes back of a datagram that may pass one router less than `distance`; None where nothing does in time."""
    with closing(socket.socket(family(address), socket.SOCK_DGRAM)) as sock:
        try:
            keep_errors(sock)
            _allow(sock, distance)
            sock.connect(socket_address(Endpoint(address, FIRST_PORT + distance)))
            sock.send(b"")
        except OSError as error:
            raise AnswerError(f"no way to send to {address}: {error.strerror or error}") from error
        return _waited_for(sock, Deadline(timeout_s))


def _waited_for(sock: socket.socket, deadline: Deadline) -> Told | None:
    """The first error that somebody else sends; this machine's own complaint that nobody is on the link is none."""
    here = ip_address(sock.getsockname()[0])
    ready = select.poll()
    ready.register(sock, 0)
    while ready.poll(deadline.left_s * 1000):
        told = next_error(sock)
        if told is not None and told.origin in (ICMP, ICMP6) and told.offender is not None:
            own = _same(told.offender, here) and not _same(here, ip_address(sock.getpeername()[0]))
            return None if own else told
        if deadline.over:
            break
    return None


def _allow(sock: socket.socket, distance: int) -> None:
    if sock.family == socket.AF_INET6:
        sock.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_UNICAST_HOPS, distance)
    else:
        sock.setsockopt(socket.IPPROTO_IP, socket.IP_TTL, distance)


def _same(one: Address, other: Address) -> bool:
    """Whether two addresses are one, on whatever link."""
    return one.version == other.version and int(one) == int(other)
