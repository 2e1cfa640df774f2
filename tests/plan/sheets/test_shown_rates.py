"""Rates as the settings of systems and switches show them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.plan.scalars.quantities import rate_bit_per_s
from netaudit.plan.sheets.shown_rates import as_rate
from netaudit.standards.phys import phys
from netaudit.units import both_rates_text

M, G = 10**6, 10**9


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("10 Gbps", 10 * G),
        ("10.0 Gbps", 10 * G),
        ("1.0 Gbps Full Duplex", G),
        ("10 Gbit/s", 10 * G),
        ("1000 Mbit/s", G),
        ("10GbE", 10 * G),
        ("2.5 GbE", 2_500 * M),
        ("10 GBE", 10 * G),
        ("10g", 10 * G),
        ("100 mbps", 100 * M),
        ("10 Gigabit", None),
        ("10GBASE-T", 10 * G),
        ("2.5GBASE-T", 2_500 * M),
        ("1000BASE-T", G),
        ("1000baseT <full-duplex>", G),
        ("10000baseT/Full", 10 * G),
        ("2500baseT/Full", 2_500 * M),
        ("10000/10000 (Mbps)", 10 * G),
        ("10/10 (Gbps)", 10 * G),
        ("2.5/2.5 (Gbps)", 2_500 * M),
        ("10000Mb/s", 10 * G),
        ("10 Gb/s", 10 * G),
        ("10G", 10 * G),
        ("1250 MB/s", 10 * G),
        ("1250MB/s", 10 * G),
    ],
)
def test_what_settings_show_is_a_rate(text: str, expected: int | None) -> None:
    # IEEE Std 802.3-2022 clause 1.2.3: the figure before BASE is the rate in Mb/s, with G in Gb/s. The rest as the
    # settings of Windows, macOS and ethtool of Linux print it.
    if expected is None:
        with pytest.raises(ValueError, match="is not a unit of rate"):
            rate_bit_per_s(as_rate(text))
    else:
        assert expected == rate_bit_per_s(as_rate(text))


@pytest.mark.parametrize("phy", [phy for phy in phys() if "BASE-" in phy])
def test_every_layer_of_ethernet_is_read_at_its_own_rate(phy: str) -> None:
    assert phys()[phy].rate_bit_per_s == rate_bit_per_s(as_rate(phy))


@pytest.mark.parametrize("rate", [10 * G, 2_500 * M, 100 * M, 10**3])
def test_what_our_own_sheet_expects_may_be_copied_to_what_is_seen(rate: int) -> None:
    assert rate == rate_bit_per_s(as_rate(both_rates_text(rate)))


@pytest.mark.parametrize(
    "text", ["", "10", "10 GBps", "10 MBPS", "fast", "full", "10 m/s", "1,0 Gbps", "-10 Gbps", f"10{' ' * 62}G"]
)
def test_any_other_text_is_left_to_its_reader(text: str) -> None:
    assert text == as_rate(text)


@pytest.mark.parametrize("text", ["100baseT/Half", "10 Mbps half duplex", "100BASE-TX <half-duplex>"])
def test_a_link_that_runs_one_way_at_a_time_is_no_rate_alone(
    text: str, refusal: Callable[[Callable[[str], object], str], str]
) -> None:
    assert f"'{text}' runs one way at a time: write the rate alone, and this into the note" == refusal(as_rate, text)


def test_two_rates_are_refused(refusal: Callable[[Callable[[str], object], str], str]) -> None:
    assert "'866/400 (Mbps)' is two rates: write the lower one, and this into the note" == refusal(
        as_rate, "866/400 (Mbps)"
    )
