"""The examples of rules on links: the cable, its rates, its frames and how full it is."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from netaudit.model.machine_state import AdapterBus
from netaudit.model.observation import Observation
from netaudit.rules.live.desk import (
    GBIT,
    HEARD_NOTHING,
    LARGE_LOST,
    OPEN,
    SEEN,
    SMALL_PASSES,
    UNSEEN,
    with_far,
    with_growth,
    with_session_count,
    with_wire,
)


def _no_carrier() -> Observation:
    return with_far(
        with_wire(UNSEEN, carrier=False, rate_bit_per_s=None),
        knocks=HEARD_NOTHING,
        frames=(),
        neighbours=None,
        smb=None,
    )


def _lost_frames() -> Observation:
    return with_far(frames=(SMALL_PASSES, LARGE_LOST))


def _small_storage() -> Observation:
    return with_far(UNSEEN, knocks={445: OPEN._replace(mss=1448)}, frames=(SMALL_PASSES, LARGE_LOST))


def _crowded() -> Observation:
    return with_growth("en5", received_bytes=2_400_000_000)


LINKS: Mapping[str, tuple[str, Callable[[], Observation]]] = {
    "carrier-lost": ("Somebody pulled the cable out of the switch; the address and the route stayed.", _no_carrier),
    "link-below-plan": (
        "A pair in the wall jack is loose: both ends offer 10 Gb/s and settle on 1 Gb/s.",
        lambda: with_wire(SEEN._replace(timings=()), rate_bit_per_s=GBIT),
    ),
    "link-below-capability": (
        "The port fell back to half duplex, since the switch port was fixed to one setting by hand.",
        lambda: with_wire(duplex="half"),
    ),
    "link-flapping": (
        "The plug at the desk is worn, and the link comes and goes.",
        lambda: with_growth("en5", carrier_changes=4),
    ),
    "receive-errors": (
        "The cord lies under a chair leg, and frames arrive damaged.",
        lambda: with_growth("en5", errors={"rx_crc_errors": 41, "rx_dropped": 0}),
    ),
    "adapter-bus-below-link": (
        "The adapter was plugged into a USB port of 5 Gb/s.",
        lambda: with_wire(SEEN._replace(timings=()), bus=AdapterBus("USB 5G", best_text="USB 10G")),
    ),
    "large-frames-lost": (
        "Both ends are set to 9000, and a switch between them passes only 1500.",
        _lost_frames,
    ),
    "frame-sizes-differ": (
        "The storage was reset and is back at 1500, under a desk that is set to 9000.",
        _small_storage,
    ),
    "retransmits-high": (
        "A switch with small buffers drops what the desk sends faster than the storage's port takes it.",
        lambda: with_session_count(sent_bytes=90_000_000, sent_segments=12_000, retransmitted=310),
    ),
    "link-full": ("A backup of this machine runs over the same port while somebody plays.", _crowded),
}
