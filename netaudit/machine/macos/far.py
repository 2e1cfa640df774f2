"""The far end from a Mac: hardware addresses, packets that may not be cut, routers, the switch's own announcement."""

from __future__ import annotations

from netaudit.errors import AnswerError
from netaudit.machine import commands
from netaudit.machine.macos.asking import text
from netaudit.machine.parse.literals import without_zone
from netaudit.machine.parse.macos.neighbours import parse_arp, parse_ndp
from netaudit.machine.parse.macos.ping import (
    IPV4_HEADERS_OCTETS,
    IPV6_HEADERS_OCTETS,
    MOST_PAYLOAD_OCTETS,
    Echo,
    parse_ping,
)
from netaudit.machine.parse.macos.traceroute import parse_traceroute
from netaudit.machine.sockets import on_link
from netaudit.model.machine_state import Route
from netaudit.model.observation import FrameTest
from netaudit.model.vocabulary import Address

ARP = "/usr/sbin/arp"
NDP = "/usr/sbin/ndp"
PING = "/sbin/ping"
PING6 = "/sbin/ping6"
TRACEROUTE = "/usr/sbin/traceroute"
TRACEROUTE6 = "/usr/sbin/traceroute6"
START_S = 1.0
"""What a command may take beside the wait that it was told [s]."""


def neighbours(address: Address) -> tuple[str, ...]:
    """Hardware addresses that the kernel holds for an address, each once."""
    rows = parse_arp(text(ARP, "-an")) if address.version == 4 else parse_ndp(text(NDP, "-an"))
    bare = without_zone(address)
    held = (row.mac for row in rows if without_zone(row.address) == bare)
    return tuple(dict.fromkeys(mac for mac in held if mac is not None))


def frame(address: Address, size_octets: int, route: Route, timeout_s: float) -> FrameTest:
    """Send one packet that may not be cut.

    A size beyond what macOS lets ping send is tried with the largest that it does: where that is lost, so is the size;
    where it passes, nothing can be said, and the size that was tried is told.
    """
    headers_octets = IPV4_HEADERS_OCTETS if address.version == 4 else IPV6_HEADERS_OCTETS
    payload_octets = min(max(size_octets - headers_octets, 0), MOST_PAYLOAD_OCTETS)
    echo = _echo(on_link(address, route.interface), payload_octets, route, timeout_s)
    tried_octets = payload_octets + headers_octets
    told_mtu = echo.told_mtu
    if echo.passed is None and route.mtu is not None and route.mtu < tried_octets:
        told_mtu = route.mtu
    if echo.passed and tried_octets < size_octets:
        return FrameTest(size_octets, passed=None, method="icmp", told_mtu=tried_octets)
    return FrameTest(size_octets, echo.passed, "icmp", told_mtu)


def routers(address: Address, most: int, timeout_s: float) -> tuple[Address, ...]:
    """Routers on the way that answer, the nearest first."""
    command = TRACEROUTE if address.version == 4 else TRACEROUTE6
    said = text(command, "-n", "-q", "1", "-w", "1", "-m", str(most), str(address), timeout_s=timeout_s + START_S)
    return parse_traceroute(said, address)[:most]


def _echo(address: Address, payload_octets: int, route: Route, timeout_s: float) -> Echo:
    """One question to ping by the interface of the route; ping6 knows no wait of its own, so its silence is a loss."""
    wait_ms, size = str(max(1, round(timeout_s * 1000))), str(payload_octets)
    way = () if route.local else ("-b" if address.version == 4 else "-B", route.interface)
    if address.version == 4:
        argv = (PING, "-n", "-c", "1", "-W", wait_ms, "-D", "-s", size, *way, str(address))
        said = commands.run(argv, timeout_s + START_S)
        return parse_ping(said.text, said.errors)
    try:
        said = commands.run((PING6, "-n", "-c", "1", "-D", "-m", "-s", size, *way, str(address)), timeout_s)
    except AnswerError:
        return Echo(passed=False)
    return parse_ping(said.text, said.errors)
