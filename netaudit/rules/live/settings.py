"""Settings of this machine: the exact step on its own system, with what it costs. Printed, and never executed.

The commands are from memory of the published manuals: nmcli(1) and nm-settings-nmcli(5), systemd.network(5),
systemd.link(5), networkctl(1), ip-address(8), ip-link(8) and ethtool(8); networksetup(8) and ifconfig(8) of macOS;
netsh. Read in Microsoft's own reference: New-NetIPAddress ends DHCP on its interface, and `*SpeedDuplex` is 0 where the
port agrees by itself.
"""

from __future__ import annotations

import shlex
from ipaddress import IPv4Interface

from netaudit.listing import listed
from netaudit.model.expectation import ExpectedPort
from netaudit.model.situation import Situation
from netaudit.model.vocabulary import Address

_HOSTS_FILES = {
    "linux": "/etc/hosts",
    "macos": "/etc/hosts",
    "windows": r"C:\Windows\System32\drivers\etc\hosts",
}
"""hosts(5) of Linux and macOS; of Windows from memory, for a system that stands on C:."""


def address_step(situation: Situation, name: str, address: IPv4Interface) -> str:
    """How to give an interface an address without a gateway beside those that it has, as a clause.

    What a step takes away is told with it: manual settings of macOS replace the old ones, and New-NetIPAddress ends
    DHCP on its interface. That the internet by that port then ends too, and how long an alias of macOS holds, is from
    memory.
    """
    system, quoted = situation.seen.system, shlex.quote(name)
    if system == "macos":
        return (
            f"`sudo ifconfig {quoted} alias {address.ip} {address.netmask}` adds it until the next start; to keep it, "
            f"System Settings, Network, the service of {name}, Details, TCP/IP: Configure IPv4 Manually, {address.ip}, "
            f"mask {address.netmask}, Router left empty, which replaces what {name} has now"
            f"{_present(situation, name)}: no internet by that port any more"
        )
    if system == "windows":
        return (
            f"as administrator `New-NetIPAddress -InterfaceAlias {powershell_quoted(name)} -IPAddress {address.ip} "
            f"-PrefixLength {address.network.prefixlen}`, without -DefaultGateway; where DHCP gave {name} what it has "
            f"now{_present(situation, name)}, DHCP ends there by it, and the internet by that port with it"
        )
    manager = _manager(situation)
    if manager == "networkmanager":
        return (
            f"`nmcli connection modify {connection_of(quoted)} +ipv4.addresses {address}`, then "
            f"`nmcli device reapply {quoted}`, which adds it to what {name} has"
        )
    if manager == "networkd":
        return (
            f"a further line `Address={address}` under [Network] in the .network file of {name}, then "
            "`networkctl reload`"
        )
    return f"`sudo ip address add {address} dev {quoted}`, which holds until the next start"


def _present(situation: Situation, name: str) -> str:
    """The IPv4 addresses that an interface has, in brackets."""
    state = situation.seen.interfaces.get(name)
    hosts = () if state is None else tuple(host for host in state.hosts if host.version == 4)
    return f" ({listed(hosts)})" if hosts else ""


def own_address_step(situation: Situation, port: ExpectedPort) -> str:
    """How to give the planned port its address, in brackets; empty where its interface or its subnet is not known."""
    state, own = situation.planned_interface, port.addresses[0]
    subnet = next((each for each in port.subnets if own in each), None)
    if state is None or subnet is None or own.version != 4:
        return ""
    return f" ({address_step(situation, state.name, IPv4Interface((own, subnet.prefixlen)))})"


def show_mtu(situation: Situation, name: str) -> str:
    """The command that shows the largest packet of an interface."""
    if situation.seen.system == "macos":
        return f"networksetup -getMTU {shlex.quote(name)}"
    if situation.seen.system == "windows":
        return "netsh interface ipv4 show subinterfaces"
    return f"ip link show {shlex.quote(name)}"


def set_mtu(situation: Situation, name: str, size: int) -> str:
    """How to set the largest packet of an interface on this system, as the beginning of a sentence."""
    begin, quoted = f"Set {name} to {size}", shlex.quote(name)
    if situation.seen.system == "macos":
        return f"{begin} with `sudo networksetup -setMTU {quoted} {size}`"
    if situation.seen.system == "windows":
        command = f'netsh interface ipv4 set subinterface "{name}" mtu={size} store=persistent'
        return f"{begin}: the adapter's property Jumbo Packet first, then as administrator `{command}`"
    manager = _manager(situation)
    if manager == "networkmanager":
        command = f"nmcli connection modify {connection_of(quoted)} 802-3-ethernet.mtu {size}"
        return f"{begin} with `{command}`, and connect it again"
    if manager == "networkd":
        return f"{begin} with `MTUBytes={size}` under [Link] in its .network file, then `networkctl reload`"
    return f"{begin} with `sudo ip link set {quoted} mtu {size}`, and in its settings to keep it"


def negotiate_step(situation: Situation, name: str) -> str:
    """How to let a port agree on its rate and duplex by itself, and how to see what it is set to, as a sentence."""
    quoted, alias = shlex.quote(name), powershell_quoted(name)
    if situation.seen.system == "macos":
        return f"`networksetup -getMedia {quoted}` shows it, `sudo networksetup -setMedia {quoted} autoselect` sets it."
    if situation.seen.system == "windows":
        return (
            f"`Get-NetAdapterAdvancedProperty -Name {alias} -RegistryKeyword '*SpeedDuplex'` shows it, and as "
            f"administrator `Set-NetAdapterAdvancedProperty -Name {alias} -RegistryKeyword '*SpeedDuplex' "
            "-RegistryValue 0` sets it."
        )
    manager = _manager(situation)
    shows = f"`ethtool {quoted}` shows it"
    if manager == "networkmanager":
        fields = '802-3-ethernet.auto-negotiate yes 802-3-ethernet.speed 0 802-3-ethernet.duplex ""'
        command = f"nmcli connection modify {connection_of(quoted)} {fields}"
        return f"{shows}, `{command}` sets it when it is connected again."
    if manager == "networkd":
        return f"{shows}, `AutoNegotiation=yes` under [Link] in its .link file sets it at the next start."
    return f"{shows}, `sudo ethtool -s {quoted} autoneg on` sets it until the next start."


def hosts_entry(situation: Situation, address: Address | None) -> str:
    """The line that lets the storage's name give one address alone on this machine, and its file, as a clause."""
    line, path = f"{address or 'ADDRESS'} {situation.seen.host}", _HOSTS_FILES[situation.seen.system]
    return f"the line `{line}` in {path}, as administrator and in place of any other with that name"


def connection_of(quoted: str) -> str:
    """NetworkManager's own name of what an interface is connected by, for a shell."""
    return f'"$(nmcli -g GENERAL.CONNECTION device show {quoted})"'


def powershell_quoted(text: str) -> str:
    """A word for PowerShell, quoted."""
    return "'" + text.replace("'", "''") + "'"


def _manager(situation: Situation) -> str:
    return (situation.seen.manager or "").casefold()
