"""Remedies at the desk: the exact step on this system. They are printed, and never executed."""

from __future__ import annotations

import shlex
from ipaddress import IPv4Interface, IPv4Network

from netaudit.listing import listed
from netaudit.model.machine_state import Interface, Route
from netaudit.model.situation import Situation
from netaudit.model.vocabulary import Address
from netaudit.rules.live.settings import address_step, connection_of, powershell_quoted

_SPARE = tuple(IPv4Network(text) for text in ("10.44.20.0/24", "10.55.30.0/24", "10.66.40.0/24", "192.168.144.0/24"))
"""Private subnets to propose; any that nobody near uses will do (RFC 1918)."""
_PREFERRED, _OTHER = 50, 5000
"""Metrics for the interface that is to win and for another; any two numbers do, the lower one wins."""


def remount(situation: Situation, address: Address | None) -> str:
    """How to eject the share and mount it by an address of the storage, as a clause."""
    mount, system = situation.seen.mount, situation.seen.system
    host = str(address) if address is not None else situation.seen.host
    if mount is None:
        again = f"mount it again by {host}" if address is not None else "mount it again"
        return f"eject the share and {again}"
    share = mount.share or "SHARE"
    if system == "macos":
        return (
            f"eject it with `diskutil unmount {shlex.quote(mount.folder)}`, then in the Finder choose Go, "
            f"Connect to Server, and type `smb://{_in_url(host)}/{share}`"
        )
    if system == "windows":
        remote = rf"\\{host}\{share}"
        if mount.folder.startswith("\\\\"):
            return f"close what uses it, and open `{remote}` instead of `{mount.folder}`"
        drive = powershell_quoted(mount.folder.rstrip("\\"))
        return (
            f"close what uses it, then run `Remove-SmbMapping -LocalPath {drive} -Force` and "
            f"`New-SmbMapping -LocalPath {drive} -RemotePath {powershell_quoted(remote)} -Persistent $true`, not as "
            "administrator"
        )
    return f"run `sudo umount {shlex.quote(mount.folder)}`, then {_mounted_again(situation, host, share)}"


def _mounted_again(situation: Situation, host: str, share: str) -> str:
    mount = situation.seen.mount
    kind, folder = ("", "") if mount is None else (mount.kind, shlex.quote(mount.folder))
    if kind in ("cifs", "smb3"):
        return f"`sudo mount -t cifs {shlex.quote(f'//{_in_url(host)}/{share}')} {folder}` with the options it had"
    if kind.startswith("nfs") and mount is not None:
        path = mount.source.rpartition(":")[2]
        return f"`sudo mount -t nfs {shlex.quote(f'{_in_url(host)}:{path}')} {folder}` with the options it had"
    return f"mount {folder} again from {host}"


def _in_url(host: str) -> str:
    return f"[{host}]" if ":" in host else host


def planned_mount(situation: Situation) -> Address | None:
    """The storage's address that the plan means to be mounted."""
    expected = situation.expected
    return None if expected is None else next(iter(expected.planned_addresses), None)


def only_the_cable(situation: Situation, wire: Interface, other: str) -> str:
    """Wi-Fi stays on, and the storage gets a subnet that only the cable has: the advice that lasts."""
    planned, storage = planned_mount(situation), situation.storage_name
    if planned is not None and not _shares_subnet(situation, planned, other):
        return f"Leave Wi-Fi on, and use the planned address of {storage}: {remount(situation, planned)}."
    home = situation.expected_port(other)
    if planned is not None and home is not None and home.subnets and not any(planned in each for each in home.subnets):
        return (
            f"Leave Wi-Fi on, but in its own network ({listed(home.networks)}, {listed(home.subnets)}): it has an "
            f"address in the subnet of {storage}, where the plan has only the cable. Then "
            f"{remount(situation, planned)}."
        )
    subnet = _spare_subnet(situation)
    far, near = subnet[10], subnet[_host_number(wire)]
    step = address_step(situation, wire.name, IPv4Interface((near, subnet.prefixlen)))
    return (
        f"Leave Wi-Fi on for the internet, and give {storage} a way that only the cable has: a subnet of its own "
        f"without a gateway, such as {subnet}, with {far} on the storage's fast port and {near} on {wire.name} "
        f"({step}); then {remount(situation, far)}."
    )


def _host_number(wire: Interface) -> int:
    """The last part of an interface's own address, so that two seats are never told the same one; else 11."""
    own = next((int(each.ip) & 0xFF for each in wire.addresses if each.version == 4), 0)
    return own if own not in (0, 10, 0xFF) else 11


def _shares_subnet(situation: Situation, address: Address, name: str) -> bool:
    """Whether an address lies in a subnet of an interface."""
    state = situation.seen.interfaces.get(name)
    return state is not None and any(address in each.network for each in state.addresses)


def _spare_subnet(situation: Situation) -> IPv4Network:
    """A private subnet that nothing this machine knows of uses."""
    taken = [each.network for state in situation.seen.interfaces.values() for each in state.addresses]
    hosts = [each.address for each in situation.seen.addresses]
    free = (
        subnet
        for subnet in _SPARE
        if not any(other.version == 4 and subnet.overlaps(other) for other in taken)
        and not any(host in subnet for host in hosts)
    )
    return next(free, _SPARE[-1])


def prefer(situation: Situation, wanted: str, other: str) -> str:
    """How to let this system prefer one interface over another where both lead to the storage, as a sentence."""
    system, quoted = situation.seen.system, shlex.quote(wanted)
    if system == "macos":
        return (
            f"For SMB alone a line `mc_prefer_wired=yes` under `[default]` in /etc/nsmb.conf also does, after the next "
            f"mount; the service order settles it only between services that both have a router: put {wanted} above "
            f"{other} there."
        )
    if system == "windows":
        server = powershell_quoted(situation.seen.host)
        return (
            f"Or let {wanted} win, as administrator: `Set-NetIPInterface -InterfaceAlias {powershell_quoted(wanted)} "
            f"-InterfaceMetric 5`, and for SMB `New-SmbMultichannelConstraint -ServerName {server} "
            f"-InterfaceAlias {powershell_quoted(wanted)}`, which binds that server to that port until it is removed."
        )
    manager = (situation.seen.manager or "").casefold()
    if manager == "networkmanager":
        return (
            f"Or let {wanted} win: `nmcli connection modify {connection_of(quoted)} ipv4.route-metric {_PREFERRED}`, "
            f"then `nmcli device reapply {quoted}`."
        )
    if manager == "networkd":
        return (
            f"Or let {wanted} win: `RouteMetric={_PREFERRED}` under [DHCPv4], or `Metric={_PREFERRED}` under [Route], "
            f"in its .network file, then `networkctl reload` and `networkctl reconfigure {quoted}`."
        )
    return _route_by_hand(situation, wanted, other)


def _route_by_hand(situation: Situation, wanted: str, other: str) -> str:
    """The metric of a route on a Linux that nothing manages."""
    state = situation.seen.interfaces.get(other)
    own = None if state is None else next((each for each in state.addresses if each.version == 4), None)
    if own is None:
        return f"Or let {wanted} win: give the routes of {other} a higher metric."
    route = f"{own.network} dev {shlex.quote(other)}"
    return (
        f"Or let {wanted} win: `sudo ip route del {route} && sudo ip route add {route} src {own.ip} metric {_OTHER}`, "
        "which holds until the next start."
    )


def special_route(situation: Situation, route: Route | None) -> str:
    """The rule or the narrow route that sends the traffic there, and how to take it out; empty where there is none."""
    if route is None or situation.seen.system != "linux":
        return ""
    if route.table is not None and route.table not in ("main", "254", "local", "255", "default", "253"):
        return (
            f"A policy rule sends it there by table {route.table}: find it with `ip rule show`, and take it out "
            f"where nothing else needs it (`sudo ip rule del …`). "
        )
    if is_host_route(route, situation):
        return f"{own_route_text(route)}; {without_host_route(route, situation)}. "
    return ""


def marked(situation: Situation, name: str) -> str:
    """How to find what sends packets by an interface that no look-up names."""
    where = {
        "linux": "`sudo nft list ruleset` and `sudo iptables-save -t mangle` for a mark, `ip rule show` for a rule on "
        "it (fwmark)",
        "macos": "`sudo pfctl -s rules` for `route-to`, and the network filters under General, VPN and Filters, in the "
        "system settings",
        "windows": "the VPN clients and the filter programs that are installed here for a rule on the storage",
    }
    return (
        f"Something beside the routes sends it out by {name}, most often a packet filter's mark: look in "
        f"{where[situation.seen.system]}, and take out what nothing else needs. "
    )


def is_host_route(route: Route | None, situation: Situation) -> bool:
    """Whether somebody made a route of its own to one host; macOS makes such ones by itself for whoever it talks to."""
    prefix = None if route is None else route.prefix
    return prefix is not None and prefix.prefixlen == prefix.max_prefixlen and situation.seen.system != "macos"


def own_route_text(route: Route) -> str:
    """What a route to one host alone is, as the beginning of a sentence."""
    return (
        f"A route of its own to this one host leads to {route.interface}: which program made it is not known, and VPN "
        "clients do so"
    )


def without_host_route(route: Route, situation: Situation) -> str:
    """How to take a route to one host out, as a clause."""
    if situation.seen.system == "windows":
        host = "" if route.prefix is None else route.prefix.network_address
        return f"`route delete {host}`, as administrator, takes it out"
    via = "" if route.gateway is None else f" via {route.gateway}"
    return f"`sudo ip route del {route.prefix}{via} dev {shlex.quote(route.interface)}` takes it out"


def rank_explained(situation: Situation, wire: Interface | None, other: str) -> bool:
    """Whether macOS ranks alone explain why a wired service lost: same subnet, and ahead in the service order.

    They do not where macOS itself says that it ranks that service with the others.
    """
    order = situation.seen.service_order
    if situation.seen.system != "macos" or wire is None or wire.name not in order or other not in order:
        return False
    if wire.ranked_last is False:
        return False
    shared = any(_shares_subnet(situation, each.ip, other) for each in wire.addresses)
    return shared and order.index(wire.name) < order.index(other)


def plug_in(situation: Situation) -> str:
    """What to do about a planned port whose interface is not found on this machine."""
    port = situation.planned_port
    wired = [state.name for state in situation.seen.interfaces.values() if state.medium == "wired"]
    hint = f" ({listed(wired)} {'is' if len(wired) == 1 else 'are'} on a cable here)" if wired else ""
    subject = "the planned port" if port is None else str(port.port)
    return f"give {subject} its `interface:` or its `mac:` in the plan{hint}"


def far_end_of(situation: Situation, name: str) -> str:
    """The port at the other end of an interface's cables, as far as the plan tells."""
    port = situation.expected_port(name)
    return "the other end" if port is None or port.far_port is None else str(port.far_port)
