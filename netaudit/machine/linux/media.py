"""What an interface is made of: wire, radio, tunnel, or nothing but software."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import NamedTuple

from netaudit.model.machine_state import Medium

_ETHERNET, _LOOPBACK = 1, 772
_TUNNEL_TYPES = frozenset({512, 513, 768, 769, 776, 778, 823, 519, 65534})
"""linux/if_arp.h: point-to-point, two kinds of IP in IP, sit, gre, gre over IPv6, raw IP, no link layer at all."""
_RADIO_TYPES = frozenset({801, 802, 803, 804})
"""linux/if_arp.h: IEEE 802.11 and its monitor modes."""
_TUNNEL_KINDS = frozenset({
    "wireguard", "gre", "gretap", "ip6gre", "ip6gretap", "erspan", "ip6erspan", "ipip", "sit", "ip6tnl", "vti", "vti6",
    "xfrm", "ppp", "vxlan", "geneve", "ovpn", "ovpn-dco", "bareudp", "gtp", "amt", "ipoib",
})  # fmt: skip
_SOFTWARE_KINDS = frozenset({"bridge", "dummy", "ifb", "vrf", "nlmon", "vcan", "netkit", "hsr", "openvswitch"})
_WIRE_KINDS = frozenset({"veth", "tun", "macvlan", "macvtap", "bond", "team"})
"""Kinds without a device of their own that stand for a wire; a `tun` with Ethernet frames is a tap."""
_RADIO_NAMES = ("wl", "ww")
"""How the names of wireless interfaces begin: systemd.net-naming-scheme(7), `wl` WLAN and `ww` WWAN."""
_MADE_UP_RATES = frozenset({"veth"})
_LEVELS = 8
"""How many interfaces may stand on one another."""


class Nature(NamedTuple):
    """What the kernel says an interface is."""

    name: str
    type: int
    """Link layer by its ARP number."""
    kind: str | None = None
    """Kind of an interface that is only software: veth, bridge, vlan …"""
    has_device: bool = False
    """Whether a device on a bus is behind it."""
    beneath: int | None = None
    """The number of the interface that it stands on, or of the member that a bond uses."""
    master: int | None = None
    """The number of the bridge or bond that it is a member of."""


def media(natures: Mapping[int, Nature], radios: Collection[int]) -> Mapping[int, Medium]:
    """The medium of every interface by its number; what stands on another is of the same."""
    return {index: _medium(index, natures, radios, _LEVELS) for index in natures}


def parent(index: int, natures: Mapping[int, Nature]) -> str | None:
    """The interface beneath; of a bridge or a bond its one member, or the one with a device; None where several."""
    nature = natures[index]
    if nature.beneath is not None:
        return natures[nature.beneath].name if nature.beneath in natures else None
    members = [each for each in natures.values() if each.master == index]
    real = [each for each in members if each.has_device]
    chosen = real if len(real) == 1 else members
    return chosen[0].name if len(chosen) == 1 else None


def made_up_rate(nature: Nature, medium: Medium) -> bool:
    """Whether the driver can only make up a rate."""
    return nature.kind in _MADE_UP_RATES or medium in ("tunnel", "virtual")


def _medium(index: int, natures: Mapping[int, Nature], radios: Collection[int], levels: int) -> Medium:
    nature = natures[index]
    if index in radios or nature.type in _RADIO_TYPES or nature.name.startswith(_RADIO_NAMES):
        return "radio"
    if nature.type == _LOOPBACK or nature.kind in _SOFTWARE_KINDS:
        return "virtual"
    if nature.type in _TUNNEL_TYPES or nature.kind in _TUNNEL_KINDS:
        return "tunnel"
    if nature.beneath in natures and nature.beneath is not None and levels:
        return _medium(nature.beneath, natures, radios, levels - 1)
    if nature.type == _ETHERNET and (nature.kind in _WIRE_KINDS or (nature.kind is None and nature.has_device)):
        return "wired"
    return "unknown"
