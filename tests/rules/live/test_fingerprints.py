"""Fingerprints: ranges of rates held against what the links that they name can carry."""

from __future__ import annotations

import pytest

from netaudit.calculations.goodput import tcp_goodput_bit_per_s
from netaudit.rules.live.fingerprints import FINGERPRINTS, RATES, suspect, suspicion

MB = 8_000_000
"""One MB/s [bit/s]."""


@pytest.mark.parametrize("fingerprint", [each for each in FINGERPRINTS if each.hop_bit_per_s])
def test_a_hop_is_suspected_at_what_its_link_carries_and_not_above(fingerprint: object) -> None:
    """TCP over IPv4 with timestamps: 94.15 % of the link at 1500 octets, 99 % at 9000 (RFC 9293, 7323; IEEE 802.3)."""
    hop = fingerprint.hop_bit_per_s  # type: ignore[attr-defined]

    for mtu in (1500, 9000):
        assert fingerprint.holds(tcp_goodput_bit_per_s(hop, mtu))  # type: ignore[attr-defined]
    assert not fingerprint.holds(hop + MB)  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("megabytes", "word"),
    [
        (11, "100 Mb/s"),
        (12.5, "100 Mb/s"),
        (30, "USB 2"),
        (42, "USB 2"),
        (100, "1 Gb/s"),
        (124, "1 Gb/s"),
        (200, "2.5 Gb/s"),
        (274.9, "2.5 Gb/s link with little to spare"),
        (275.1, "2.5 Gb/s link somewhere on the way"),
        (310, "2.5 Gb/s"),
        (310.1, "USB bus of 5 Gb/s"),
        (439.9, "USB bus of 5 Gb/s"),
        (440.1, "signing"),
        (600, "signing"),
    ],
)
def test_a_rate_has_its_usual_suspect(megabytes: float, word: str) -> None:
    known = suspect(megabytes * MB)

    assert known is not None
    assert word in known.suspect
    assert suspicion(megabytes * MB).startswith("a rate like ")
    assert suspicion(megabytes * MB).endswith(f" is often {known.suspect}")


@pytest.mark.parametrize("megabytes", [0, 10.9, 12.6, 29.9, 42.1, 99.9, 124.1, 199.9, 700.1, 1177])
def test_other_rates_have_none(megabytes: float) -> None:
    assert suspect(megabytes * MB) is None
    assert "" == suspicion(megabytes * MB)


def test_the_links_that_are_suspected_are_those_of_twisted_pair() -> None:
    """IEEE 802.3: 100BASE-TX, 1000BASE-T, 2.5GBASE-T."""
    assert {10**8, 10**9, 2_500_000_000} == {each.hop_bit_per_s for each in FINGERPRINTS if each.hop_bit_per_s}


def test_custom_proves_nothing() -> None:
    assert "common practice" == RATES.standing
