"""Fingerprints: what a steady rate of one large file makes people suspect first."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.units import BITS_PER_BYTE, byte_rate_text

RATES = Citation("rates of one large file, and what they turned out to be", None, "common practice")
"""The source of the table: what people who measured such rates found in the end."""


class Fingerprint(NamedTuple):
    """A range of rates with its usual suspect."""

    least_mb_per_s: float
    """[MB/s]"""
    most_mb_per_s: float
    """[MB/s]"""
    suspect: str
    """What to look at first, as a noun phrase."""
    hop_bit_per_s: int | None = None
    """The rate of a link somewhere on the way that would explain it by itself [bit/s]."""

    def holds(self, rate_bit_per_s: float) -> bool:
        """Whether a rate [bit/s] lies in the range."""
        return self.least_mb_per_s <= rate_bit_per_s / BITS_PER_BYTE / 1e6 <= self.most_mb_per_s


FINGERPRINTS = (
    Fingerprint(11, 12.5, "a 100 Mb/s link: only two pairs of a cable good, or a stuck negotiation", 100_000_000),
    Fingerprint(30, 42, "an adapter on USB 2, or Wi-Fi"),
    Fingerprint(100, 124, "a 1 Gb/s link somewhere on the way: a port, an uplink, a router", 1_000_000_000),
    Fingerprint(275, 310, "a 2.5 Gb/s link somewhere on the way, or a mirror of two disks", 2_500_000_000),
    Fingerprint(200, 275, "a 2.5 Gb/s link with little to spare, or a mirror of two disks"),
    Fingerprint(310, 440, "5 Gb/s over a USB bus of 5 Gb/s, or a slot of one lane"),
    Fingerprint(440, 700, "one stream at the limit of a processor: signing, encryption, or the protocol itself"),
)
"""Ranges of rates, the first that holds a rate counts: common practice, no source; where a link is named, up to what it
carries in packets of 9000 octets."""
STEADY_SHARE = 0.2
"""How far apart the middle half of the steps of a flat transfer may lie, as a share of the median: common practice, no
source."""


def suspect(rate_bit_per_s: float) -> Fingerprint | None:
    """The usual suspect behind a rate [bit/s]; None where none is usual."""
    return next((each for each in FINGERPRINTS if each.holds(rate_bit_per_s)), None)


def suspicion(rate_bit_per_s: float) -> str:
    """The usual suspect behind a rate as a clause, empty where none is usual."""
    known = suspect(rate_bit_per_s)
    return "" if known is None else f"a rate like {byte_rate_text(rate_bit_per_s)} is often {known.suspect}"
