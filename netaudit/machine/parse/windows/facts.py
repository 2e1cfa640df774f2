"""What both ways of asking Windows come to, direct calls and PowerShell alike, before it is a value of the model."""

from __future__ import annotations

from ipaddress import IPv4Interface, IPv6Interface, ip_interface
from typing import NamedTuple

from netaudit.machine.parse.literals import without_zone
from netaudit.model.machine_state import Counters, Endpoint
from netaudit.model.vocabulary import Address, Subnet

UNKNOWN_RATE = 2**64 - 1
"""What Windows writes for a link rate that it does not know (NET_IF_LINK_SPEED_UNKNOWN in ifdef.h)."""
NO_LIMIT = 2**32 - 1
"""What Windows writes for an MTU without limit, as its loopback has."""
ESTABLISHED = 5
"""State of a living TCP connection (MIB_TCP_STATE_ESTAB in tcpmib.h)."""
UNRESOLVED = frozenset({0, 1})
"""States of a neighbour that holds no answer: unreachable, incomplete (NL_NEIGHBOR_STATE in nldef.h)."""


class AdapterFacts(NamedTuple):
    """An adapter as Windows knows it. None is not told."""

    number: int
    alias: str
    description: str | None = None
    kind: int | None = None
    """Kind of interface in IANA's numbers: 6 Ethernet, 71 wireless, 24 loopback."""
    physical_medium: int | None = None
    """NDIS_PHYSICAL_MEDIUM: 14 cable, 9 and 1 wireless, 0 not told."""
    tunnelled: bool = False
    hardware: bool | None = None
    layer: bool = False
    """Whether it is only a driver's layer upon another, which carries no traffic of its own."""
    up: bool | None = None
    carrier: bool | None = None
    rate_bit_per_s: int | None = None
    full_duplex: bool | None = None
    mtu: int | None = None
    mac: str | None = None
    counters: Counters = Counters()
    device: str | None = None
    """Where it is plugged in, by plug-and-play: `PCI\\VEN_…`, `USB\\VID_…`."""


class AddressFacts(NamedTuple):
    """An address of this machine, with the length of its prefix."""

    number: int
    address: IPv4Interface | IPv6Interface


class RouteFacts(NamedTuple):
    """The route that Windows takes to be the best."""

    number: int
    prefix: Subnet | None
    gateway: Address | None
    """None where the destination is on the link."""
    source: Address | None
    metric: int | None
    """The route's own."""
    interface_metric: int | None = None
    """Added to the route's own when routes are compared."""


class RouteFound(NamedTuple):
    """What came of looking for a route."""

    route: RouteFacts | None
    why_not: str | None = None


class Connection(NamedTuple):
    """A living TCP connection."""

    local: Endpoint
    remote: Endpoint
    process: int | None


class NeighbourFacts(NamedTuple):
    """A hardware address that the system holds for an address."""

    address: Address
    mac: str
    number: int


class IpInterface(NamedTuple):
    """How IP uses an interface."""

    metric: int
    mtu: int | None
    weak: bool
    """Whether it sends packets that bear another interface's address: the weak host model, off by default."""


class Echo(NamedTuple):
    """What came back to an ICMP echo request."""

    status: int
    """IP_STATUS of ipexport.h; 0 an answer."""
    responder: Address | None = None


def with_prefix(address: Address, length: int | None) -> IPv4Interface | IPv6Interface:
    """An address with its prefix; standing alone where the length makes no sense."""
    longest = address.max_prefixlen
    known = length if length is not None and 0 <= length <= longest else longest
    return ip_interface(f"{without_zone(address)}/{known}")


def mac_of(octets: bytes) -> str | None:
    """A hardware address as six pairs; None where there is none, or one of another length."""
    return octets.hex(":") if len(octets) == 6 and any(octets) else None


def rate_of(bit_per_s: int | None) -> int | None:
    """A link rate [bit/s]; None where Windows writes that it knows none."""
    return None if bit_per_s is None or not 0 < bit_per_s < UNKNOWN_RATE else bit_per_s


def slower(*rates_bit_per_s: int | None) -> int | None:
    """The slower direction of a link [bit/s]: a radio's two differ."""
    return min((rate for rate in map(rate_of, rates_bit_per_s) if rate is not None), default=None)


def mtu_of(octets: int | None) -> int | None:
    """A largest packet [octets]; None where there is no limit."""
    return None if octets is None or not 0 < octets < NO_LIMIT else octets


def refusal_text(code: int) -> str | None:
    """Why there is no route, by the number of the Windows error; None where it means something else (winerror.h)."""
    words = {
        1168: "there is no route",
        1231: "the network cannot be reached",
        1232: "the host cannot be reached",
        50: "this machine does not run that version of IP",
        10051: "the network cannot be reached",
        10065: "the host cannot be reached",
    }
    return f"{words[code]} (Windows error {code})" if code in words else None
