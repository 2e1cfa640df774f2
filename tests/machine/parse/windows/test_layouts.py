"""Nothing of Windows runs here: the layouts are held against those that a compiler gives the public headers.

tests/captures/windows/layouts.txt is what mingw-w64's compiler (GCC 12, headers 10.0.0) prints for sizeof and offsetof
of the structures in its netioapi.h, ws2ipdef.h, tcpmib.h and ipexport.h.
"""

from __future__ import annotations

from ctypes import sizeof

import pytest
from windowsroom import LAYOUT, SIZES

from netaudit.machine.parse.windows import layouts

STRUCTURES = {
    "SOCKADDR_INET": layouts.SocketAddress,
    "IP_ADDRESS_PREFIX": layouts.Prefix,
    "MIB_IPFORWARD_ROW2": layouts.RouteRow,
    "MIB_IF_ROW2": layouts.InterfaceRow,
    "MIB_IPINTERFACE_ROW": layouts.IpInterfaceRow,
    "MIB_UNICASTIPADDRESS_ROW": layouts.AddressRow,
    "MIB_IPNET_ROW2": layouts.NeighbourRow,
    "MIB_IPPATH_ROW": layouts.PathRow,
    "MIB_IFSTACK_ROW": layouts.StackRow,
    "MIB_TCPROW_OWNER_PID": layouts.Tcp4Row,
    "MIB_TCP6ROW_OWNER_PID": layouts.Tcp6Row,
    "IP_OPTION_INFORMATION": layouts.EchoOptions,
    "ICMP_ECHO_REPLY": layouts.Echo4Reply,
}
FIELDS = {
    "SOCKADDR_INET.Ipv4.sin_addr": "version_4",
    "SOCKADDR_INET.Ipv6.sin6_addr": "version_6",
    "SOCKADDR_INET.Ipv6.sin6_scope_id": "scope",
    "IP_ADDRESS_PREFIX.PrefixLength": "length",
    "MIB_IPFORWARD_ROW2.InterfaceIndex": "number",
    "MIB_IPFORWARD_ROW2.DestinationPrefix": "destination",
    "MIB_IPFORWARD_ROW2.NextHop": "next_hop",
    "MIB_IPFORWARD_ROW2.Metric": "metric",
    "MIB_IF_ROW2.InterfaceIndex": "number",
    "MIB_IF_ROW2.Alias": "alias",
    "MIB_IF_ROW2.Description": "description",
    "MIB_IF_ROW2.PhysicalAddressLength": "mac_octets",
    "MIB_IF_ROW2.PhysicalAddress": "mac",
    "MIB_IF_ROW2.Mtu": "mtu",
    "MIB_IF_ROW2.Type": "kind",
    "MIB_IF_ROW2.TunnelType": "tunnel",
    "MIB_IF_ROW2.PhysicalMediumType": "physical_medium",
    "MIB_IF_ROW2.InterfaceAndOperStatusFlags": "flags",
    "MIB_IF_ROW2.OperStatus": "operating",
    "MIB_IF_ROW2.AdminStatus": "switched",
    "MIB_IF_ROW2.MediaConnectState": "connected",
    "MIB_IF_ROW2.TransmitLinkSpeed": "sends_bit_per_s",
    "MIB_IF_ROW2.ReceiveLinkSpeed": "receives_bit_per_s",
    "MIB_IF_ROW2.InOctets": "received_bytes",
    "MIB_IF_ROW2.InUcastPkts": "received_to_one",
    "MIB_IF_ROW2.InNUcastPkts": "received_to_many",
    "MIB_IF_ROW2.InDiscards": "received_discards",
    "MIB_IF_ROW2.InErrors": "received_errors",
    "MIB_IF_ROW2.OutOctets": "sent_bytes",
    "MIB_IF_ROW2.OutUcastPkts": "sent_to_one",
    "MIB_IF_ROW2.OutNUcastPkts": "sent_to_many",
    "MIB_IF_ROW2.OutDiscards": "sent_discards",
    "MIB_IF_ROW2.OutErrors": "sent_errors",
    "MIB_IPINTERFACE_ROW.Family": "family",
    "MIB_IPINTERFACE_ROW.InterfaceIndex": "number",
    "MIB_IPINTERFACE_ROW.WeakHostSend": "sends_for_others",
    "MIB_IPINTERFACE_ROW.UseAutomaticMetric": "automatic_metric",
    "MIB_IPINTERFACE_ROW.Metric": "metric",
    "MIB_IPINTERFACE_ROW.NlMtu": "mtu",
    "MIB_IPINTERFACE_ROW.Connected": "connected",
    "MIB_IPINTERFACE_ROW.DisableDefaultRoutes": "no_default_routes",
    "MIB_UNICASTIPADDRESS_ROW.Address": "address",
    "MIB_UNICASTIPADDRESS_ROW.InterfaceIndex": "number",
    "MIB_UNICASTIPADDRESS_ROW.OnLinkPrefixLength": "prefix_length",
    "MIB_UNICASTIPADDRESS_ROW.DadState": "state",
    "MIB_IPNET_ROW2.Address": "address",
    "MIB_IPNET_ROW2.InterfaceIndex": "number",
    "MIB_IPNET_ROW2.PhysicalAddress": "mac",
    "MIB_IPNET_ROW2.PhysicalAddressLength": "mac_octets",
    "MIB_IPNET_ROW2.State": "state",
    "MIB_IPPATH_ROW.Source": "source",
    "MIB_IPPATH_ROW.Destination": "destination",
    "MIB_IPPATH_ROW.InterfaceIndex": "number",
    "MIB_IPPATH_ROW.PathMtu": "mtu",
    "MIB_IFSTACK_ROW.HigherLayerInterfaceIndex": "above",
    "MIB_IFSTACK_ROW.LowerLayerInterfaceIndex": "below",
    "MIB_TCPROW_OWNER_PID.dwState": "state",
    "MIB_TCPROW_OWNER_PID.dwLocalAddr": "local",
    "MIB_TCPROW_OWNER_PID.dwLocalPort": "local_port",
    "MIB_TCPROW_OWNER_PID.dwRemoteAddr": "remote",
    "MIB_TCPROW_OWNER_PID.dwRemotePort": "remote_port",
    "MIB_TCPROW_OWNER_PID.dwOwningPid": "process",
    "MIB_TCP6ROW_OWNER_PID.ucLocalAddr": "local",
    "MIB_TCP6ROW_OWNER_PID.dwLocalScopeId": "local_scope",
    "MIB_TCP6ROW_OWNER_PID.dwLocalPort": "local_port",
    "MIB_TCP6ROW_OWNER_PID.ucRemoteAddr": "remote",
    "MIB_TCP6ROW_OWNER_PID.dwRemoteScopeId": "remote_scope",
    "MIB_TCP6ROW_OWNER_PID.dwRemotePort": "remote_port",
    "MIB_TCP6ROW_OWNER_PID.dwState": "state",
    "MIB_TCP6ROW_OWNER_PID.dwOwningPid": "process",
    "IP_OPTION_INFORMATION.Ttl": "hops",
    "IP_OPTION_INFORMATION.Flags": "flags",
    "ICMP_ECHO_REPLY.Address": "responder",
    "ICMP_ECHO_REPLY.Status": "status",
}


@pytest.mark.parametrize("name", STRUCTURES)
def test_a_structure_is_as_large_as_its_header_makes_it(name: str) -> None:
    assert SIZES[name] == sizeof(STRUCTURES[name])


@pytest.mark.parametrize("field", FIELDS)
def test_a_field_stands_where_its_header_puts_it(field: str) -> None:
    ours = getattr(STRUCTURES[field.split(".", 1)[0]], FIELDS[field])

    assert LAYOUT[field] == (ours.offset, ours.size)


def test_the_reply_of_icmp_6_is_packed_and_then_padded() -> None:
    """Windows SDK, ipexport.h: IPV6_ADDRESS_EX under pack(1) is 26 octets; the two numbers behind it are aligned."""
    reply = layouts.Echo6Reply

    assert (36, 6, 28, 32) == (sizeof(reply), reply.responder.offset, reply.status.offset, reply.round_trip_ms.offset)
