"""The questions to PowerShell, each with the properties that are read and no other."""

from __future__ import annotations

from netaudit.machine.parse.literals import without_zone
from netaudit.machine.parse.windows.script import Query
from netaudit.model.vocabulary import Address

ADAPTERS = Query(
    "adapters",
    "Get-NetAdapter -IncludeHidden",
    (
        "Name", "InterfaceDescription", "ifIndex", "InterfaceType", "NdisPhysicalMedium", "HardwareInterface",
        "IMFilter", "InterfaceAdminStatus", "MediaConnectState", "TransmitLinkSpeed", "ReceiveLinkSpeed", "LinkSpeed",
        "MediaDuplexState", "FullDuplex", "MtuSize", "MacAddress", "PnPDeviceID",
    ),
)  # fmt: skip
STATISTICS = Query(
    "statistics",
    "Get-NetAdapterStatistics -IncludeHidden",
    (
        "Name", "SentBytes", "ReceivedBytes",
        "SentUnicastPackets", "SentMulticastPackets", "SentBroadcastPackets",
        "ReceivedUnicastPackets", "ReceivedMulticastPackets", "ReceivedBroadcastPackets",
        "ReceivedPacketErrors", "ReceivedDiscardedPackets", "OutboundPacketErrors", "OutboundDiscardedPackets",
    ),
)  # fmt: skip
HARDWARE = Query(
    "hardware",
    "Get-NetAdapterHardwareInfo",
    (
        "Name", "PciDeviceType", "PciExpressCurrentLinkSpeedEncoded", "PciExpressCurrentLinkWidth",
        "PciExpressMaxLinkSpeedEncoded", "PciExpressMaxLinkWidth",
    ),
)  # fmt: skip
SETTINGS = Query(
    "settings",
    "Get-NetAdapterAdvancedProperty -AllProperties -RegistryKeyword @('*SpeedDuplex', '*JumboPacket')",
    ("Name", "RegistryKeyword"),
    ("RegistryValue", "ValidRegistryValues"),
)
TUNNELS = Query("tunnels", "Get-VpnConnection", ("Name", "ConnectionStatus"))
COMMON_TUNNELS = Query("commonTunnels", "Get-VpnConnection -AllUserConnection", TUNNELS.properties)
ADDRESSES = Query(
    "addresses", "Get-NetIPAddress", ("IPAddress", "PrefixLength", "InterfaceIndex", "AddressFamily", "AddressState")
)
IP_INTERFACES = Query(
    "ipInterfaces",
    "Get-NetIPInterface",
    ("InterfaceIndex", "AddressFamily", "InterfaceMetric", "NlMtu", "WeakHostSend"),
)
CONNECTIONS = Query(
    "connections",
    "Get-NetTCPConnection",
    ("LocalAddress", "LocalPort", "RemoteAddress", "RemotePort", "State", "OwningProcess"),
)
NEIGHBOURS = Query(
    "neighbours", "Get-NetNeighbor", ("IPAddress", "LinkLayerAddress", "InterfaceIndex", "State", "AddressFamily")
)
MULTICHANNEL = Query(
    "multichannel",
    "Get-SmbMultichannelConnection -IncludeNotSelected",
    (
        "ServerName", "ClientIpAddress", "ServerIpAddress", "ClientInterfaceIndex", "ClientInterfaceFriendlyName",
        "ClientLinkSpeed", "Selected", "Failed", "CurrentChannels",
    ),
)  # fmt: skip
SMB_SESSIONS = Query("smbSessions", "Get-SmbConnection", ("ServerName", "ShareName", "Dialect", "Signed", "Encrypted"))
MAPPINGS = Query("mappings", "Get-SmbMapping", ("LocalPath", "RemotePath", "Status"))


def route_to(remote: Address) -> Query:
    """The route to an address; its two answers are of two classes, so the properties of both are named."""
    return Query(
        "route",
        f"Find-NetRoute -RemoteIPAddress '{_safe(remote)}'",
        ("IPAddress", "DestinationPrefix", "NextHop", "RouteMetric", "InterfaceMetric", "InterfaceIndex"),
    )


def _safe(address: Address) -> str:
    """An address as text that can hold no command: its zone, which may be any text, only where it is a number."""
    zone = str(getattr(address, "scope_id", None) or "")
    plain = str(without_zone(address))
    return f"{plain}%{zone}" if zone.isascii() and zone.isdigit() else plain
