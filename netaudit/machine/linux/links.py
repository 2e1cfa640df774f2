"""The interfaces of this machine, asked over netlink.

Not from /sys/class/net: a process may stand in another network namespace than the one its /sys was mounted for, and
would read the interfaces of that one. Layouts: linux/if_link.h, linux/if_addr.h, linux/rtnetlink.h.
"""

from __future__ import annotations

import struct
from collections.abc import Mapping
from ipaddress import IPv4Interface, IPv6Interface, ip_interface
from typing import NamedTuple

from netaudit.machine.linux import netlink
from netaudit.machine.linux.ethtool import LinkSettings, driver, link_settings
from netaudit.machine.linux.media import Nature, made_up_rate, media, parent
from netaudit.machine.linux.netlink import address, attributes, number, text
from netaudit.machine.linux.radio import radio_links
from netaudit.model.machine_state import Counters, Interface, Medium
from netaudit.model.observation import Growth

_GET_LINK, _GET_ADDRESS = 18, 22
_IFINFO = struct.Struct("=BxHiII")
_IFADDR = struct.Struct("=BBBBI")
_IFF_UP = 0x1
_ADDRESS, _NAME, _MTU, _LINK, _MASTER, _OPERSTATE, _LINKINFO, _STATS = 1, 3, 4, 5, 10, 16, 18, 23
_CARRIER, _CARRIER_CHANGES, _LINK_NAMESPACE, _DEVICE = 33, 35, 37, 56
_INFO_KIND, _INFO_DATA, _BOND_ACTIVE = 1, 2, 2
_IFA_ADDRESS, _IFA_LOCAL = 1, 2
_OPERSTATE_CARRIER = {2: False, 3: False, 5: True, 6: True}
"""RFC 2863 as the kernel numbers it: down, lower layer down, dormant, up; the others say nothing."""
_STATS_NAMES = (
    "rx_packets", "tx_packets", "rx_bytes", "tx_bytes", "rx_errors", "tx_errors", "rx_dropped", "tx_dropped",
    "multicast", "collisions", "rx_length_errors", "rx_over_errors", "rx_crc_errors", "rx_frame_errors",
    "rx_fifo_errors", "rx_missed_errors", "tx_aborted_errors", "tx_carrier_errors", "tx_fifo_errors",
    "tx_heartbeat_errors", "tx_window_errors",
)  # fmt: skip
"""Members of `struct rtnl_link_stats64` in their order, as far as anything here counts."""
_ERRORS = frozenset(name for name in _STATS_NAMES if name.endswith(("_errors", "_dropped"))) | {"collisions"}


class Link(NamedTuple):
    """One interface as the kernel lists it."""

    number: int
    name: str
    nature: Nature
    up: bool
    carrier: bool | None
    carrier_changes: int | None
    mtu: int | None
    mac: str | None
    counters: Counters


def interfaces() -> Mapping[str, Interface]:
    """Every interface by name, in the kernel's order, with its agreed rate; raises as netlink does."""
    links = _links()
    owned = _addresses({link.number: link.name for link in links})
    natures = {link.number: link.nature for link in links}
    kinds = media(natures, radio_links())
    return {link.name: _interface(link, owned.get(link.number, ()), kinds, natures) for link in links}


def counts() -> Mapping[str, Growth]:
    """The counters of every interface since it came up; raises as netlink does."""
    return {link.name: Growth(link.counters, link.carrier_changes) for link in _links()}


def parse_link(body: bytes) -> Link | None:
    """One interface of a list; None where the message is cut short or names none."""
    if len(body) < _IFINFO.size:
        return None
    _, link_layer, index, flags, _ = _IFINFO.unpack_from(body)
    values = attributes(body[_IFINFO.size :])
    name = text(values.get(_NAME))
    if name is None:
        return None
    up = bool(flags & _IFF_UP)
    return Link(
        index,
        name,
        _nature(name, link_layer, index, values),
        up,
        _carrier(values) if up else None,
        number(values.get(_CARRIER_CHANGES)),
        number(values.get(_MTU)) or None,
        _mac(values.get(_ADDRESS, b"")),
        parse_counters(values.get(_STATS, b"")),
    )


def parse_address(body: bytes) -> tuple[int, bytes, int] | None:
    """One address of a list: its interface's number, its octets, the bits of its prefix; None for rubbish."""
    if len(body) < _IFADDR.size:
        return None
    _, prefix_bits, _, _, index = _IFADDR.unpack_from(body)
    values = attributes(body[_IFADDR.size :])
    octets = values.get(_IFA_LOCAL) or values.get(_IFA_ADDRESS) or b""
    return (index, octets, prefix_bits) if len(octets) in (4, 16) and prefix_bits <= 8 * len(octets) else None


def parse_counters(data: bytes) -> Counters:
    """Counters by their own names; what is cut off is not known."""
    whole = len(data) // 8 * 8
    stats = dict(zip(_STATS_NAMES, (value for (value,) in struct.iter_unpack("=Q", data[:whole])), strict=False))
    return Counters(
        sent_bytes=stats.get("tx_bytes"),
        received_bytes=stats.get("rx_bytes"),
        sent_packets=stats.get("tx_packets"),
        received_packets=stats.get("rx_packets"),
        errors={name: value for name, value in stats.items() if name in _ERRORS},
    )


def _links() -> tuple[Link, ...]:
    answers = netlink.dump(netlink.ROUTE, _GET_LINK, _IFINFO.pack(0, 0, 0, 0, 0))
    found = (parse_link(message.body) for message in answers)
    return tuple(link for link in found if link is not None)


def _addresses(names: Mapping[int, str]) -> Mapping[int, tuple[IPv4Interface | IPv6Interface, ...]]:
    """Addresses with their prefixes by the number of the interface."""
    owned: dict[int, tuple[IPv4Interface | IPv6Interface, ...]] = {}
    for message in netlink.dump(netlink.ROUTE, _GET_ADDRESS, _IFADDR.pack(0, 0, 0, 0, 0)):
        found = parse_address(message.body)
        if found is not None:
            index, octets, prefix_bits = found
            own = ip_interface(f"{address(octets, names.get(index))}/{prefix_bits}")
            owned[index] = (*owned.get(index, ()), own)
    return owned


def _nature(name: str, link_layer: int, index: int, values: Mapping[int, bytes]) -> Nature:
    info = attributes(values.get(_LINKINFO, b""))
    kind = text(info.get(_INFO_KIND))
    has_device = _DEVICE in values or (kind is None and driver(name).device is not None)
    return Nature(name, link_layer, kind, has_device, _beneath(kind, index, info, values), number(values.get(_MASTER)))


def _beneath(kind: str | None, index: int, info: Mapping[int, bytes], values: Mapping[int, bytes]) -> int | None:
    """The number of the interface beneath, where it is one of this namespace; a virtual pair stands on nothing."""
    if kind == "bond":
        return number(attributes(info.get(_INFO_DATA, b"")).get(_BOND_ACTIVE))
    link = number(values.get(_LINK))
    return None if kind == "veth" or _LINK_NAMESPACE in values or link == index else link or None


def _carrier(values: Mapping[int, bytes]) -> bool | None:
    said = number(values.get(_CARRIER))
    return _OPERSTATE_CARRIER.get(number(values.get(_OPERSTATE)) or 0) if said is None else said == 1


def _mac(octets: bytes) -> str | None:
    return octets.hex(":") if len(octets) == 6 and any(octets) else None


def _interface(
    link: Link,
    owned: tuple[IPv4Interface | IPv6Interface, ...],
    kinds: Mapping[int, Medium],
    natures: Mapping[int, Nature],
) -> Interface:
    agreed = link_settings(link.name) if link.up and link.carrier is not False else LinkSettings()
    return Interface(
        name=link.name,
        number=link.number,
        medium=kinds[link.number],
        up=link.up,
        carrier=link.carrier,
        rate_bit_per_s=agreed.rate_bit_per_s,
        duplex=agreed.duplex,
        mtu=link.mtu,
        mac=link.mac,
        addresses=owned,
        carrier_changes=link.carrier_changes,
        counters=link.counters,
        parent=parent(link.number, natures),
        made_up_rate=made_up_rate(link.nature, kinds[link.number]),
    )
