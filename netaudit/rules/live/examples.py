"""An example of each live rule: a desk in order, and one change to it with the sentence that tells the story."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from ipaddress import IPv4Address, IPv4Interface, IPv4Network
from typing import NamedTuple

from netaudit.model.expectation import Expectation
from netaudit.model.machine_state import AdapterBus, Interface, Route
from netaudit.model.observation import Knock, Neighbours, Observation, Offer, Timing
from netaudit.rules.live.desk import (
    BY_WIRE,
    COLD,
    EN6,
    EXPECTED,
    FAR,
    FAST_MAC,
    GBIT,
    LARGE_LOST,
    OLD_SESSION,
    OPEN,
    SEEN,
    SLOW_FAR,
    SLOW_MAC,
    SLOW_VAULT,
    SMALL_PASSES,
    VAULT,
    WARM,
    WIRE_HOST,
    WLAN0,
    with_far,
    with_growth,
    with_interface,
    with_session_count,
    with_wire,
)

_HEARD_NOTHING = {445: Knock("silent", (), 1), 2049: Knock("silent", (), 1)}
_SECOND_VAULT = IPv4Address("10.44.20.51")
_AIR_IN_MEDIA = WLAN0._replace(addresses=(IPv4Interface("10.44.20.12/24"),))
_BY_SMALL_FRAMES = {"knocks": {445: OPEN._replace(mss=1448)}, "frames": (SMALL_PASSES,)}
_UNSEEN = SEEN._replace(sessions=(), timings=(), client=SEEN.client._replace(channels=()), mount=None)
"""The desk before anything is mounted."""


class LiveExample(NamedTuple):
    """A desk at which one rule strikes."""

    story: str
    """What is wrong there, in a sentence."""
    seen: Observation
    expected: Expectation


def healthy() -> tuple[Observation, Expectation]:
    """The desk in order."""
    return SEEN, EXPECTED


def example_of(rule: str) -> LiveExample:
    """The example of a live rule by its name; KeyError where it has none."""
    story, change = _CHANGES[rule]
    return LiveExample(story, change(), EXPECTED)


def _on_wireless() -> Observation:
    route = Route("wlan0", source=IPv4Address("10.44.20.12"), prefix=BY_WIRE.prefix, metric=50)
    return with_far(with_interface(_AIR_IN_MEDIA, _UNSEEN), route=route, **_BY_SMALL_FRAMES)


def _on_other_port() -> Observation:
    own = IPv4Address("10.44.20.13")
    seen = with_interface(EN6._replace(addresses=(IPv4Interface(f"{own}/24"),)), _UNSEEN)
    return with_far(seen, route=Route("en6", source=own, prefix=BY_WIRE.prefix, metric=50), **_BY_SMALL_FRAMES)


def _old_session() -> Observation:
    return with_interface(_AIR_IN_MEDIA, _UNSEEN)._replace(sessions=(OLD_SESSION,))


def _strayed_replies() -> Observation:
    wire = with_growth("en5", received_bytes=40_000, received_packets=300)
    return with_growth("wlan0", wire, received_bytes=186_000_000, received_packets=130_000)


def _no_carrier() -> Observation:
    return with_far(
        with_wire(_UNSEEN, carrier=False, rate_bit_per_s=None),
        knocks=_HEARD_NOTHING,
        frames=(),
        neighbours=None,
        smb=None,
    )


def _two_in_one_subnet() -> Observation:
    macs = Neighbours((SLOW_MAC, FAST_MAC), asked=True)
    other = SLOW_FAR._replace(address=_SECOND_VAULT, origin="mount", route=BY_WIRE, neighbours=macs)
    return with_far(_UNSEEN._replace(addresses=(FAR, other)), neighbours=macs)


def _lost_frames() -> Observation:
    return with_far(frames=(SMALL_PASSES, LARGE_LOST))


def _slow_address() -> Observation:
    return _UNSEEN._replace(
        addresses=(SLOW_FAR,), sessions=(OLD_SESSION._replace(remote=OLD_SESSION.remote._replace(address=SLOW_VAULT)),)
    )


def _tunnelled() -> Observation:
    tunnel = Interface("tun0", medium="tunnel", up=True, carrier=True, mtu=1400, parent="wlan0")
    narrow = Route("tun0", source=IPv4Address("10.200.0.6"), prefix=IPv4Network("10.44.0.0/16"), metric=50)
    return with_far(with_interface(tunnel, _UNSEEN), route=narrow, knocks=_HEARD_NOTHING, frames=(), neighbours=None)


def _asleep() -> Observation:
    return with_far(_UNSEEN, knocks=_HEARD_NOTHING, frames=(), neighbours=None, smb=None)


def _refusing() -> Observation:
    refused = Knock("refused", (0.0002,))
    return with_far(_UNSEEN, knocks={445: refused, 2049: refused}, smb=None)


def _nowhere() -> Observation:
    seen = with_wire(_UNSEEN, addresses=())
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


def _one_card_twice() -> Observation:
    held = Neighbours((SLOW_MAC,), asked=False)
    slow = SLOW_FAR._replace(route=BY_WIRE, origin="mount", neighbours=held)
    return with_far(SEEN._replace(addresses=(FAR, slow)), neighbours=held)


def _routed() -> Observation:
    route = Route("en5", source=WIRE_HOST, gateway=IPv4Address("10.44.21.1"), metric=100)
    seen = with_wire(_UNSEEN, addresses=(IPv4Interface("10.44.21.11/24"),))
    return with_far(seen, route=route, routers=(IPv4Address("10.44.21.1"),), neighbours=None)


def _small_storage() -> Observation:
    return with_far(_UNSEEN, knocks={445: OPEN._replace(mss=1448)}, frames=(SMALL_PASSES, LARGE_LOST))


def _crowded() -> Observation:
    return with_growth("en5", received_bytes=2_400_000_000)


def _slow_port_near() -> Observation:
    return SEEN._replace(offers=(Offer(VAULT, 10 * GBIT, 1), Offer(_SECOND_VAULT, GBIT, 2)))


def _slower(timing: Timing, seconds: float) -> Timing:
    steps = len(timing.steps_s)
    return timing._replace(seconds=seconds, steps_s=tuple(seconds / steps * (0.7, 1.3)[n % 2] for n in range(steps)))


def _stalled() -> Observation:
    return SEEN._replace(timings=(COLD._replace(steps_s=(*COLD.steps_s[:-1], 0.62)), WARM))


def _signed() -> Observation:
    return SEEN._replace(client=SEEN.client._replace(signing=True), timings=(_slower(COLD, 0.72), _slower(WARM, 0.7)))


def _slow_disks() -> Observation:
    return SEEN._replace(timings=(_slower(COLD, 0.9), WARM))


_CHANGES: Mapping[str, tuple[str, Callable[[], Observation]]] = {
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
    "carrier-lost": ("Somebody pulled the cable out of the switch; the address and the route stayed.", _no_carrier),
    "link-below-plan": (
        "A pair in the wall jack is loose: both ends offer 10 Gb/s and settle on 1 Gb/s.",
        lambda: with_wire(SEEN._replace(timings=()), rate_bit_per_s=GBIT),
    ),
    "two-answers-for-address": (
        "Both ports of the storage stand in one subnet, and each of them answers for both addresses.",
        _two_in_one_subnet,
    ),
    "large-frames-lost": (
        "Both ends are set to 9000, and a switch between them passes only 1500.",
        _lost_frames,
    ),
    "address-not-planned": (
        "The entry in the sidebar has the address of the storage's slow port.",
        _slow_address,
    ),
    "tunnel-takes-route": (
        "The VPN was started, and the far office uses the same private addresses.",
        _tunnelled,
    ),
    "no-answer": ("The storage is switched off.", _asleep),
    "service-refused": ("The storage is on, and its file sharing was not started after the update.", _refusing),
    "no-route": ("The wired port lost its address, and nothing else leads to the storage's subnet.", _nowhere),
    "link-below-capability": (
        "The port fell back to half duplex, since the switch port was fixed to one setting by hand.",
        lambda: with_wire(duplex="half"),
    ),
    "one-hardware-address-twice": (
        "The storage's slow port answers for its fast address as well.",
        _one_card_twice,
    ),
    "name-gives-many-addresses": (
        "The storage announces both of its ports under one name.",
        lambda: SEEN._replace(addresses=(FAR, SLOW_FAR)),
    ),
    "router-between": ("The seat was moved to another subnet, and a router now stands on the way.", _routed),
    "frame-sizes-differ": (
        "The storage was reset and is back at 1500, under a desk that is set to 9000.",
        _small_storage,
    ),
    "link-flapping": (
        "The plug at the desk is worn, and the link comes and goes.",
        lambda: with_growth("en5", carrier_changes=4),
    ),
    "link-full": ("A backup of this machine runs over the same port while somebody plays.", _crowded),
    "receive-errors": (
        "The cord lies under a chair leg, and frames arrive damaged.",
        lambda: with_growth("en5", errors={"rx_crc_errors": 41, "rx_dropped": 0}),
    ),
    "retransmits-high": (
        "A switch with small buffers drops what the desk sends faster than the storage's port takes it.",
        lambda: with_session_count(sent_bytes=90_000_000, sent_segments=12_000, retransmitted=310),
    ),
    "storage-offers-slower-port": (
        "The storage lists its 1 Gb/s port in the same subnet for further channels.",
        _slow_port_near,
    ),
    "adapter-bus-below-link": (
        "The adapter was plugged into a USB port of 5 Gb/s.",
        lambda: with_wire(SEEN._replace(timings=()), bus=AdapterBus("USB 5G", best_text="USB 10G")),
    ),
    "storage-stalls": ("A snapshot holds the storage up for more than half a second.", _stalled),
    "signing-or-encryption": (
        "Each packet of the session is signed, which an older processor cannot do faster.",
        _signed,
    ),
    "not-the-network": ("The pool is nearly full and reads slowly, over a network that is fine.", _slow_disks),
}
