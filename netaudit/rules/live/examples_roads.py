"""The examples of rules on the road: which port is used, by which address, and what stands between."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from ipaddress import IPv4Address, IPv4Interface, IPv4Network

from netaudit.model.machine_state import Interface, Route
from netaudit.model.observation import Observation
from netaudit.rules.live.desk import (
    BY_WIRE,
    EN6,
    FAR,
    HEARD_NOTHING,
    OLD_SESSION,
    OPEN,
    SEEN,
    SLOW_FAR,
    SLOW_VAULT,
    SMALL_PASSES,
    UNSEEN,
    WIRE_HOST,
    WLAN0,
    with_far,
    with_growth,
    with_interface,
    with_wire,
)

_AIR_IN_MEDIA = WLAN0._replace(addresses=(IPv4Interface("10.44.20.12/24"),))
_BY_SMALL_FRAMES = {"knocks": {445: OPEN._replace(mss=1448)}, "frames": (SMALL_PASSES,)}


def _on_wireless() -> Observation:
    route = Route("wlan0", source=IPv4Address("10.44.20.12"), prefix=BY_WIRE.prefix, metric=50)
    return with_far(with_interface(_AIR_IN_MEDIA, UNSEEN), route=route, **_BY_SMALL_FRAMES)


def _on_other_port() -> Observation:
    own = IPv4Address("10.44.20.13")
    seen = with_interface(EN6._replace(addresses=(IPv4Interface(f"{own}/24"),)), UNSEEN)
    return with_far(seen, route=Route("en6", source=own, prefix=BY_WIRE.prefix, metric=50), **_BY_SMALL_FRAMES)


def _old_session() -> Observation:
    return with_interface(_AIR_IN_MEDIA, UNSEEN)._replace(sessions=(OLD_SESSION,))


def _strayed_replies() -> Observation:
    wire = with_growth("en5", received_bytes=40_000, received_packets=300)
    return with_growth("wlan0", wire, received_bytes=186_000_000, received_packets=130_000)


def _slow_address() -> Observation:
    return UNSEEN._replace(
        addresses=(SLOW_FAR,), sessions=(OLD_SESSION._replace(remote=OLD_SESSION.remote._replace(address=SLOW_VAULT)),)
    )


def _tunnelled() -> Observation:
    tunnel = Interface("tun0", medium="tunnel", up=True, carrier=True, mtu=1400, parent="wlan0")
    narrow = Route("tun0", source=IPv4Address("10.200.0.6"), prefix=IPv4Network("10.44.0.0/16"), metric=50)
    return with_far(with_interface(tunnel, UNSEEN), route=narrow, knocks=HEARD_NOTHING, frames=(), neighbours=None)


def _nowhere() -> Observation:
    seen = with_wire(UNSEEN, addresses=())
    return with_far(
        seen,
        route=None,
        no_route="Network is unreachable",
        knocks={},
        frames=(),
        neighbours=None,
        routers=None,
        smb=None,
    )


def _routed() -> Observation:
    route = Route("en5", source=WIRE_HOST, gateway=IPv4Address("10.44.21.1"), metric=100)
    seen = with_wire(UNSEEN, addresses=(IPv4Interface("10.44.21.11/24"),))
    return with_far(seen, route=route, routers=(IPv4Address("10.44.21.1"),), neighbours=None)


ROADS: Mapping[str, tuple[str, Callable[[], Observation]]] = {
    "traffic-on-wireless": (
        "Wi-Fi was given an address in the storage's subnet, and its route has the lower metric.",
        _on_wireless,
    ),
    "traffic-on-other-port": (
        "The 1 Gb/s port at the back was plugged into the storage's subnet too, and its route wins.",
        _on_other_port,
    ),
    "session-on-other-port": (
        "The share was mounted over Wi-Fi in the morning, and the cable was plugged in at noon.",
        _old_session,
    ),
    "replies-on-other-port": (
        "The storage still believes that this machine's address is at its Wi-Fi card.",
        _strayed_replies,
    ),
    "address-not-planned": (
        "The entry in the sidebar has the address of the storage's slow port.",
        _slow_address,
    ),
    "tunnel-takes-route": (
        "The VPN was started, and the far office uses the same private addresses.",
        _tunnelled,
    ),
    "router-between": ("The seat was moved to another subnet, and a router now stands on the way.", _routed),
    "no-route": ("The wired port lost its address, and nothing else leads to the storage's subnet.", _nowhere),
    "name-gives-many-addresses": (
        "The storage announces both of its ports under one name.",
        lambda: SEEN._replace(addresses=(FAR, SLOW_FAR)),
    ),
}
