"""The network tables of Windows as its direct calls return them: bytes in, facts out.

A table that is shorter than it says raises AnswerError.
"""

from __future__ import annotations

from collections.abc import Iterator
from ctypes import Structure, sizeof
from ipaddress import IPv4Address, IPv6Address, ip_network
from typing import TypeVar

from netaudit.errors import AnswerError
from netaudit.machine.parse.literals import without_zone
from netaudit.machine.parse.windows.facts import (
    ESTABLISHED,
    UNRESOLVED,
    AdapterFacts,
    AddressFacts,
    Connection,
    Echo,
    IpInterface,
    NeighbourFacts,
    RouteFacts,
    mac_of,
    mtu_of,
    slower,
    with_prefix,
)
from netaudit.machine.parse.windows.layouts import (
    AddressRow,
    Echo4Reply,
    Echo6Reply,
    InterfaceRow,
    IpInterfaceRow,
    NeighbourRow,
    PathRow,
    RouteRow,
    SocketAddress,
    StackRow,
    Tcp4Row,
    Tcp6Row,
)
from netaudit.model.machine_state import Counters, Endpoint
from netaudit.model.vocabulary import Address, Subnet

VERSION_4 = 2
VERSION_6 = 23
"""Address families of Windows (ws2def.h)."""
MOST_ROWS = 65_536
"""Rows of a table beyond which it is not believed."""
_HARDWARE, _LAYER = 1, 2
"""Bits of an interface row: a real card; a filter's layer upon another (netioapi.h)."""
_ABSENT = 6
"""State of an interface whose card is not there (ifdef.h)."""
_SWITCHED = {1: True, 2: False}
_CONNECTED = {1: True, 2: False}

Row = TypeVar("Row", bound=Structure)


def table_octets(row: type[Structure], count: int, first: int) -> int:
    """Size of a table of so many rows that begin at an offset [octets]; raises AnswerError where it cannot be true."""
    if not 0 <= count <= MOST_ROWS:
        raise AnswerError(f"Windows answered with a table of {count} rows")
    return first + count * sizeof(row)


def adapters(table: bytes) -> tuple[AdapterFacts, ...]:
    """The interfaces of GetIfTable2."""
    return tuple(_adapter(row) for row in _rows(InterfaceRow, table, first=8))


def _adapter(row: InterfaceRow) -> AdapterFacts:
    there = row.operating != _ABSENT
    return AdapterFacts(
        number=row.number,
        alias=_text(row.alias),
        description=_text(row.description) or None,
        kind=row.kind,
        physical_medium=row.physical_medium,
        tunnelled=row.tunnel != 0,
        hardware=bool(row.flags & _HARDWARE),
        layer=bool(row.flags & _LAYER),
        up=_SWITCHED.get(row.switched),
        carrier=_CONNECTED.get(row.connected) if there else False,
        rate_bit_per_s=slower(row.sends_bit_per_s, row.receives_bit_per_s),
        mtu=mtu_of(row.mtu),
        mac=mac_of(bytes(row.mac)[: row.mac_octets]),
        counters=Counters(
            sent_bytes=row.sent_bytes,
            received_bytes=row.received_bytes,
            sent_packets=row.sent_to_one + row.sent_to_many,
            received_packets=row.received_to_one + row.received_to_many,
            errors={
                "ReceivedPacketErrors": row.received_errors,
                "ReceivedDiscardedPackets": row.received_discards,
                "OutboundPacketErrors": row.sent_errors,
                "OutboundDiscardedPackets": row.sent_discards,
            },
        ),
    )


def addresses(table: bytes) -> tuple[AddressFacts, ...]:
    """The addresses of GetUnicastIpAddressTable, also of a port whose cable is out; invalid ones left away."""
    rows = ((row, socket_address(row.address)) for row in _rows(AddressRow, table, first=8) if row.state)
    return tuple(
        AddressFacts(row.number, with_prefix(address, row.prefix_length))
        for row, address in rows
        if address is not None
    )


def neighbours(table: bytes) -> tuple[NeighbourFacts, ...]:
    """The neighbours of GetIpNetTable2 whose hardware address is known."""
    rows = ((row, socket_address(row.address)) for row in _rows(NeighbourRow, table, first=8))
    known = (
        (address, mac_of(bytes(row.mac)[: row.mac_octets]), row.number)
        for row, address in rows
        if row.state not in UNRESOLVED
    )
    return tuple(
        NeighbourFacts(without_zone(address), mac, number)
        for address, mac, number in known
        if address is not None and mac is not None
    )


def stack(table: bytes) -> tuple[tuple[int, int], ...]:
    """The pairs of GetIfStackTable: an interface, and one that it stands upon."""
    return tuple((row.above, row.below) for row in _rows(StackRow, table, first=4))


def connections_4(table: bytes) -> tuple[Connection, ...]:
    """The living connections of GetExtendedTcpTable, IPv4."""
    return tuple(
        Connection(
            Endpoint(IPv4Address(bytes(row.local)), _port(row.local_port)),
            Endpoint(IPv4Address(bytes(row.remote)), _port(row.remote_port)),
            row.process or None,
        )
        for row in _rows(Tcp4Row, table, first=4)
        if row.state == ESTABLISHED
    )


def connections_6(table: bytes) -> tuple[Connection, ...]:
    """The living connections of GetExtendedTcpTable, IPv6; IPv4 in IPv6 clothes as IPv4."""
    return tuple(
        Connection(
            Endpoint(_version_6(bytes(row.local), row.local_scope), _port(row.local_port)),
            Endpoint(_version_6(bytes(row.remote), row.remote_scope), _port(row.remote_port)),
            row.process or None,
        )
        for row in _rows(Tcp6Row, table, first=4)
        if row.state == ESTABLISHED
    )


def route(row_octets: bytes, source_octets: bytes) -> RouteFacts:
    """The route of GetBestRoute2 and the source address it chose; an all-zero next hop means on the link."""
    row, source = _row(RouteRow, row_octets), _row(SocketAddress, source_octets)
    gateway = socket_address(row.next_hop)
    return RouteFacts(
        number=row.number,
        prefix=_subnet(socket_address(row.destination.address), row.destination.length),
        gateway=None if gateway is None or gateway.is_unspecified else gateway,
        source=socket_address(source),
        metric=row.metric,
    )


def ip_interface(octets: bytes) -> IpInterface:
    """The row of GetIpInterfaceEntry."""
    row = _row(IpInterfaceRow, octets)
    return IpInterface(metric=row.metric, mtu=mtu_of(row.mtu), weak=bool(row.sends_for_others))


def path_mtu(octets: bytes) -> int | None:
    """The largest packet in the row of GetIpPathEntry [octets]."""
    return mtu_of(_row(PathRow, octets).mtu)


def echo_4(octets: bytes) -> Echo:
    """The first reply of IcmpSendEcho2Ex."""
    reply = _row(Echo4Reply, octets)
    responder = IPv4Address(bytes(reply.responder))
    return Echo(reply.status, None if responder.is_unspecified else responder)


def echo_6(octets: bytes) -> Echo:
    """The first reply of Icmp6SendEcho2."""
    reply = _row(Echo6Reply, octets)
    responder = IPv6Address(bytes(reply.responder))
    return Echo(reply.status, None if responder.is_unspecified else responder)


def socket_address(row: SocketAddress) -> Address | None:
    """An address of either family; None of neither."""
    if row.family == VERSION_4:
        return IPv4Address(bytes(row.version_4))
    if row.family == VERSION_6:
        return _version_6(bytes(row.version_6), row.scope)
    return None


def _version_6(octets: bytes, scope: int) -> Address:
    address = IPv6Address(octets)
    if address.ipv4_mapped is not None:
        return address.ipv4_mapped
    return IPv6Address(f"{address}%{scope}") if scope and address.is_link_local else address


def _port(octets: object) -> int:
    """A port in network order, in the first two octets of four."""
    return int.from_bytes(bytes(octets)[:2], "big")  # type: ignore[call-overload]


def _subnet(address: Address | None, length: int) -> Subnet | None:
    if address is None or length > address.max_prefixlen:
        return None
    return ip_network(f"{without_zone(address)}/{length}", strict=False)


def _text(units: object) -> str:
    """A name in UTF-16 up to its closing zero; halves of characters are replaced."""
    whole = bytes(units).decode("utf-16-le", "replace")  # type: ignore[call-overload]
    return str(whole).partition("\0")[0]


def _rows(row: type[Row], table: bytes, first: int) -> Iterator[Row]:
    """The rows of a table that opens with their number."""
    count = int.from_bytes(table[:4], "little")
    if len(table) < max(first, table_octets(row, count, first)):
        raise AnswerError(f"Windows answered with a table of {len(table)} octets that claims {count} rows")
    return (row.from_buffer_copy(table, first + index * sizeof(row)) for index in range(count))


def _row(row: type[Row], octets: bytes) -> Row:
    if len(octets) < sizeof(row):
        raise AnswerError(f"Windows answered with {len(octets)} octets instead of {sizeof(row)}")
    return row.from_buffer_copy(octets)
