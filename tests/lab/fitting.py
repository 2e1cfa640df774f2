"""How a port is joined to the switch, and what the kernel is told to make it so."""

from __future__ import annotations

from ipaddress import ip_interface
from typing import NamedTuple

from pyroute2 import IPRoute

FORWARDING = 3
"""BR_STATE_FORWARDING in linux/if_bridge.h."""


class Fitting(NamedTuple):
    """How a device is joined to the switch."""

    name: str
    addresses: tuple[str, ...] = ()
    mtu: int = 1500
    bridge: str = "br0"
    cap_mbit_per_s: int | None = None
    """What passes in each direction at most."""
    agreed_mbit_per_s: int | None = None
    """What a patch cable lets its device say; None joins by a virtual pair, which says 10 Gb/s."""
    offload: bool = True
    metric: int | None = None


def index_of(ip: IPRoute, name: str) -> int:
    """The kernel's number of an interface."""
    (index,) = ip.link_lookup(ifname=name)
    return int(index)


def set_up_switch_end(ip: IPRoute, fitting: Fitting) -> None:
    """Hang the switch's end of a cable on its bridge."""
    number = index_of(ip, f"p-{fitting.name}")
    ip.link("set", index=number, mtu=fitting.mtu, master=index_of(ip, fitting.bridge), state="up")
    _cap(ip, number, fitting.cap_mbit_per_s)


def forwards(ip: IPRoute, name: str) -> bool:
    """Whether the switch passes frames through a port: it learns of a carrier a little after the port has it."""
    (link,) = ip.get_links(index_of(ip, name))
    return link.get_nested("IFLA_LINKINFO", "IFLA_INFO_SLAVE_DATA", "IFLA_BRPORT_STATE") == FORWARDING


def set_up_host_end(ip: IPRoute, fitting: Fitting) -> None:
    """Switch the host's end on and give it its addresses."""
    number = index_of(ip, fitting.name)
    ip.link("set", index=number, mtu=fitting.mtu, state="up")
    _cap(ip, number, fitting.cap_mbit_per_s)
    for address in map(ip_interface, fitting.addresses):
        weight = {} if fitting.metric is None else {"IFA_RT_PRIORITY": fitting.metric}
        ip.addr("add", index=number, address=str(address.ip), prefixlen=address.network.prefixlen, **weight)


def _cap(ip: IPRoute, number: int, rate_mbit_per_s: int | None) -> None:
    """Let a port send so much and not more (tc-tbf)."""
    if rate_mbit_per_s is not None:
        burst = max(64_000, rate_mbit_per_s * 1000 // 8)
        ip.tc("add", "tbf", number, 0x10000, rate=f"{rate_mbit_per_s}mbit", burst=burst, latency="50ms")
