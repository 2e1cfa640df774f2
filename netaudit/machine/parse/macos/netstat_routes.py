"""`netstat -rn`: the routing table, with the networks behind the routes that were cloned for single hosts.

Format: Apple, network_cmds, netstat.tproj/route.c. Until 10.14 the columns Refs and Use stood before Netif.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from ipaddress import ip_network
from typing import NamedTuple

from netaudit.machine.parse.literals import without_zone
from netaudit.model.vocabulary import Address, Subnet


class RouteRow(NamedTuple):
    """A row of the routing table."""

    destination: Subnet
    gateway: str
    """A router, `link#N`, or a hardware address."""
    flags: str
    interface: str

    @property
    def scoped(self) -> bool:
        """Whether only sockets that are bound to its interface use it."""
        return "I" in self.flags

    @property
    def cloned(self) -> bool:
        """Whether it was made for one host: scoped by ordinary use, and no sign of anything."""
        return "W" in self.flags


def parse_netstat_routes(text: str) -> tuple[RouteRow, ...]:
    """Every row that can be read, in the table's order."""
    return tuple(_rows(text))


def network_behind(rows: Iterable[RouteRow], address: Address, interface: str) -> Subnet | None:
    """The longest network of an interface that an address lies in, clones for single hosts left out."""
    bare = without_zone(address)
    found = [
        row.destination for row in rows if not row.cloned and row.interface == interface and bare in row.destination
    ]
    return max(found, key=lambda network: network.prefixlen, default=None)


def _rows(text: str) -> Iterator[RouteRow]:
    version, columns = 4, []
    for line in text.splitlines():
        words = line.split()
        if words[:1] in (["Internet:"], ["Internet6:"]):
            version = 4 if words[0] == "Internet:" else 6
        elif words[:1] == ["Destination"]:
            columns = words
        elif words and columns:
            cells = dict(zip(columns, words, strict=False))
            destination = _expanded(cells["Destination"], version)
            if destination is not None and {"Gateway", "Flags", "Netif"} <= cells.keys():
                yield RouteRow(destination, cells["Gateway"], cells["Flags"], cells["Netif"])


def _expanded(text: str, version: int) -> Subnet | None:
    """A destination written out: `default`, `10.20.30/24`, and `192.168.10`, which is 192.168.10.0/24 by its class."""
    host, _, length = text.partition("/")
    host = host.partition("%")[0]
    if host == "default":
        host, length = ("0.0.0.0", "0") if version == 4 else ("::", "0")  # noqa: S104 - a network, not a socket
    if version == 4:
        octets = host.split(".")
        length = length or str(8 * len(octets))
        host = ".".join([*octets, "0", "0", "0"][:4])
    try:
        return ip_network(f"{host}/{length or 128}", strict=False)
    except ValueError:
        return None
