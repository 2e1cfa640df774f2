"""The examples of rules on the storage: who answers, with what, and how fast."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from ipaddress import IPv4Address

from netaudit.model.observation import Knock, Neighbours, Observation, Offer, Timing
from netaudit.rules.live.desk import (
    BY_WIRE,
    COLD,
    FAR,
    FAST_MAC,
    GBIT,
    HEARD_NOTHING,
    SEEN,
    SLOW_FAR,
    SLOW_MAC,
    UNSEEN,
    VAULT,
    WARM,
    with_far,
)

_SECOND_VAULT = IPv4Address("10.44.20.51")


def _two_in_one_subnet() -> Observation:
    macs = Neighbours((SLOW_MAC, FAST_MAC), asked=True)
    other = SLOW_FAR._replace(address=_SECOND_VAULT, origin="mount", route=BY_WIRE, neighbours=macs)
    return with_far(UNSEEN._replace(addresses=(FAR, other)), neighbours=macs)


def _asleep() -> Observation:
    return with_far(UNSEEN, knocks=HEARD_NOTHING, frames=(), neighbours=None, smb=None)


def _refusing() -> Observation:
    refused = Knock("refused", (0.0002,))
    return with_far(UNSEEN, knocks={445: refused, 2049: refused}, smb=None)


def _one_card_twice() -> Observation:
    held = Neighbours((SLOW_MAC,), asked=False)
    slow = SLOW_FAR._replace(route=BY_WIRE, origin="mount", neighbours=held)
    return with_far(SEEN._replace(addresses=(FAR, slow)), neighbours=held)


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


STORAGE: Mapping[str, tuple[str, Callable[[], Observation]]] = {
    "no-answer": ("The storage is switched off.", _asleep),
    "service-refused": ("The storage is on, and its file sharing was not started after the update.", _refusing),
    "two-answers-for-address": (
        "Both ports of the storage stand in one subnet, and each of them answers for both addresses.",
        _two_in_one_subnet,
    ),
    "one-hardware-address-twice": (
        "The storage's slow port answers for its fast address as well.",
        _one_card_twice,
    ),
    "storage-offers-slower-port": (
        "The storage lists its 1 Gb/s port in the same subnet for further channels.",
        _slow_port_near,
    ),
    "storage-stalls": ("A snapshot holds the storage up for more than half a second.", _stalled),
    "signing-or-encryption": (
        "Each packet of the session is signed, which an older processor cannot do faster.",
        _signed,
    ),
    "not-the-network": ("The pool is nearly full and reads slowly, over a network that is fine.", _slow_disks),
}
