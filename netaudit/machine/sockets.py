"""What every question over a socket needs: an address as the system's calls want it."""

from __future__ import annotations

import socket
from ipaddress import IPv6Address

from netaudit.model.machine_state import Endpoint
from netaudit.model.vocabulary import Address

SocketAddress = tuple[str, int] | tuple[str, int, int, int]


def family(address: Address) -> socket.AddressFamily:
    """The family of sockets that an address belongs to."""
    return socket.AF_INET6 if address.version == 6 else socket.AF_INET


def socket_address(end: Endpoint) -> SocketAddress:
    """One end as connect, bind and sendto take it, the scope of a link-local address as a number.

    Raises OSError where the address names an interface that is not there.
    """
    if not isinstance(end.address, IPv6Address):
        return str(end.address), end.port
    scope = end.address.scope_id
    plain = IPv6Address(int(end.address))
    if scope is None:
        return str(plain), end.port, 0, 0
    return str(plain), end.port, 0, int(scope) if scope.isdecimal() else socket.if_nametoindex(scope)


def on_link(address: Address, interface: str) -> Address:
    """The same address; a link-local one that does not say on which link it lies is given the interface."""
    if isinstance(address, IPv6Address) and address.is_link_local and address.scope_id is None:
        return IPv6Address(f"{address}%{interface}")
    return address
