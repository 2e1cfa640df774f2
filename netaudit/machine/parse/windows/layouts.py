"""How Windows lays its network tables out in memory; field for field after its public headers, names in our words.

The headers are netioapi.h, ws2ipdef.h, tcpmib.h, ipexport.h; alignment is natural. A field that nobody reads is only
counted over.
"""

from __future__ import annotations

from ctypes import Structure, c_uint8, c_uint16, c_uint32, c_uint64, c_void_p

TEXT_UNITS = 257
"""Length of a name in an interface row, the closing zero included [UTF-16 units]."""


class SocketAddress(Structure):
    """SOCKADDR_INET: an address of either family, its bytes in network order."""

    _fields_ = (
        ("family", c_uint16),
        ("port", c_uint8 * 2),
        ("version_4", c_uint8 * 4),
        ("version_6", c_uint8 * 16),
        ("scope", c_uint32),
    )


class Prefix(Structure):
    """IP_ADDRESS_PREFIX."""

    _fields_ = (("address", SocketAddress), ("length", c_uint8))


class RouteRow(Structure):
    """MIB_IPFORWARD_ROW2; its metric is the route's alone, without the interface's."""

    _fields_ = (
        ("luid", c_uint64),
        ("number", c_uint32),
        ("destination", Prefix),
        ("next_hop", SocketAddress),
        ("site_prefix_length", c_uint8),
        ("lifetimes_s", c_uint32 * 2),
        ("metric", c_uint32),
        ("protocol", c_uint32),
        ("flags", c_uint8 * 4),
        ("age_s", c_uint32),
        ("origin", c_uint32),
    )


class InterfaceRow(Structure):
    """MIB_IF_ROW2."""

    _fields_ = (
        ("luid", c_uint64),
        ("number", c_uint32),
        ("guid", c_uint8 * 16),
        ("alias", c_uint16 * TEXT_UNITS),
        ("description", c_uint16 * TEXT_UNITS),
        ("mac_octets", c_uint32),
        ("mac", c_uint8 * 32),
        ("permanent_mac", c_uint8 * 32),
        ("mtu", c_uint32),
        ("kind", c_uint32),
        ("tunnel", c_uint32),
        ("medium", c_uint32),
        ("physical_medium", c_uint32),
        ("access_and_direction", c_uint32 * 2),
        ("flags", c_uint8),
        ("operating", c_uint32),
        ("switched", c_uint32),
        ("connected", c_uint32),
        ("network", c_uint8 * 16),
        ("connection", c_uint32),
        ("sends_bit_per_s", c_uint64),
        ("receives_bit_per_s", c_uint64),
        ("received_bytes", c_uint64),
        ("received_to_one", c_uint64),
        ("received_to_many", c_uint64),
        ("received_discards", c_uint64),
        ("received_errors", c_uint64),
        ("received_unknown_and_split", c_uint64 * 4),
        ("sent_bytes", c_uint64),
        ("sent_to_one", c_uint64),
        ("sent_to_many", c_uint64),
        ("sent_discards", c_uint64),
        ("sent_errors", c_uint64),
        ("sent_split_and_queue", c_uint64 * 4),
    )


class IpInterfaceRow(Structure):
    """MIB_IPINTERFACE_ROW: how one version of IP uses an interface."""

    _fields_ = (
        ("family", c_uint16),
        ("luid", c_uint64),
        ("number", c_uint32),
        ("reassembly", c_uint32),
        ("identifier", c_uint64),
        ("advertisement_intervals", c_uint32 * 2),
        ("advertises_and_forwards", c_uint8 * 2),
        ("sends_for_others", c_uint8),
        ("receives_for_others", c_uint8),
        ("automatic_metric", c_uint8),
        ("discovery_flags", c_uint8 * 4),
        ("timers", c_uint32 * 7),
        ("zones", c_uint32 * 16),
        ("site_prefix_length", c_uint32),
        ("metric", c_uint32),
        ("mtu", c_uint32),
        ("connected", c_uint8),
        ("supports", c_uint8 * 3),
        ("reachable_ms", c_uint32),
        ("offloads", c_uint8 * 2),
        ("no_default_routes", c_uint8),
    )


class AddressRow(Structure):
    """MIB_UNICASTIPADDRESS_ROW."""

    _fields_ = (
        ("address", SocketAddress),
        ("luid", c_uint64),
        ("number", c_uint32),
        ("origins", c_uint32 * 2),
        ("lifetimes_s", c_uint32 * 2),
        ("prefix_length", c_uint8),
        ("skip_as_source", c_uint8),
        ("state", c_uint32),
        ("scope", c_uint32),
        ("created", c_uint64),
    )


class NeighbourRow(Structure):
    """MIB_IPNET_ROW2."""

    _fields_ = (
        ("address", SocketAddress),
        ("number", c_uint32),
        ("luid", c_uint64),
        ("mac", c_uint8 * 32),
        ("mac_octets", c_uint32),
        ("state", c_uint32),
        ("flags", c_uint8),
        ("reached", c_uint32),
    )


class PathRow(Structure):
    """MIB_IPPATH_ROW: what the system has learnt about the way to one address."""

    _fields_ = (
        ("source", SocketAddress),
        ("destination", SocketAddress),
        ("luid", c_uint64),
        ("number", c_uint32),
        ("next_hop", SocketAddress),
        ("mtu", c_uint32),
        ("round_trip", c_uint32 * 2),
        ("reached", c_uint32),
        ("reachable", c_uint8),
        ("link_rates", c_uint64 * 2),
    )


class StackRow(Structure):
    """MIB_IFSTACK_ROW: one interface that stands upon another."""

    _fields_ = (("above", c_uint32), ("below", c_uint32))


class Tcp4Row(Structure):
    """MIB_TCPROW_OWNER_PID: addresses in network order, ports too, in their lower half."""

    _fields_ = (
        ("state", c_uint32),
        ("local", c_uint8 * 4),
        ("local_port", c_uint8 * 4),
        ("remote", c_uint8 * 4),
        ("remote_port", c_uint8 * 4),
        ("process", c_uint32),
    )


class Tcp6Row(Structure):
    """MIB_TCP6ROW_OWNER_PID."""

    _fields_ = (
        ("local", c_uint8 * 16),
        ("local_scope", c_uint32),
        ("local_port", c_uint8 * 4),
        ("remote", c_uint8 * 16),
        ("remote_scope", c_uint32),
        ("remote_port", c_uint8 * 4),
        ("state", c_uint32),
        ("process", c_uint32),
    )


class EchoOptions(Structure):
    """IP_OPTION_INFORMATION."""

    _fields_ = (
        ("hops", c_uint8),
        ("service", c_uint8),
        ("flags", c_uint8),
        ("options_octets", c_uint8),
        ("options", c_void_p),
    )


class Echo4Reply(Structure):
    """ICMP_ECHO_REPLY."""

    _fields_ = (
        ("responder", c_uint8 * 4),
        ("status", c_uint32),
        ("round_trip_ms", c_uint32),
        ("data_octets", c_uint16),
        ("reserved", c_uint16),
        ("data", c_void_p),
        ("options", EchoOptions),
    )


class Echo6Reply(Structure):
    """ICMPV6_ECHO_REPLY: its address is packed without gaps, two octets follow it."""

    _fields_ = (
        ("port_and_flow", c_uint8 * 6),
        ("responder", c_uint8 * 16),
        ("scope", c_uint8 * 4),
        ("gap", c_uint8 * 2),
        ("status", c_uint32),
        ("round_trip_ms", c_uint32),
    )
