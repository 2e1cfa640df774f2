"""The kernel's numbers of link modes against its own header, where each name says its rate."""

import re
from collections.abc import Callable, Mapping

import pytest

from netaudit.machine.linux.link_modes import RATES_BIT_PER_S, rates_bit_per_s


def test_every_mode_of_the_kernels_header_runs_at_the_rate_in_its_name(
    header: Callable[[str], Mapping[str, int]],
) -> None:
    """linux/ethtool.h: ETHTOOL_LINK_MODE_10000baseT_Full_BIT is 12."""
    named = {
        number: int(found[1]) * 1_000_000
        for name, number in header("ethtool.h").items()
        if (found := re.fullmatch(r"ETHTOOL_LINK_MODE_(\d+)base\w+_BIT", name))
    }

    assert len(named) > 60
    assert named == {number: rate for number, rate in RATES_BIT_PER_S.items() if number <= max(named)}


def test_what_is_no_mode_has_no_rate(header: Callable[[str], Mapping[str, int]]) -> None:
    known = header("ethtool.h")
    properties = {number for name, number in known.items() if re.fullmatch(r"ETHTOOL_LINK_MODE_[A-Z]\w*_BIT", name)}

    assert properties
    assert properties.isdisjoint(RATES_BIT_PER_S)


@pytest.mark.parametrize(
    ("number", "rate_bit_per_s"),
    [(93, 800e9), (99, 10e6), (103, 200e9), (109, 400e9), (115, 800e9), (120, 800e9), (121, 1600e9), (124, 1600e9)],
)
def test_modes_of_younger_kernels(number: int, rate_bit_per_s: float) -> None:
    """linux/ethtool.h of Linux 6.18: 800000baseCR8 93, 10baseT1S 99, 200000baseCR 103, 400000baseCR2 109,
    800000baseCR4 115 to VR4 120, 1600000baseCR8 121 to DR8_2 124."""
    assert rate_bit_per_s == RATES_BIT_PER_S[number]


def test_every_number_is_a_mode_or_a_property() -> None:
    """linux/ethtool.h: negotiation 6, plugs 7 to 11, pause 13 and 14, backplane 16, error correction 49 to 51 and 74."""
    properties = {6, 7, 8, 9, 10, 11, 13, 14, 16, 49, 50, 51, 74}

    assert set(range(125)) - properties == set(RATES_BIT_PER_S)


def test_rates_come_once_and_the_highest_first() -> None:
    """A twisted-pair adapter for 100 Mb/s, 1, 2.5, 5 and 10 Gb/s: bits 3, 5, 47, 48, 12, with negotiation (6)."""
    modes = sum(1 << bit for bit in (3, 5, 47, 48, 12, 6, 2))

    assert (10**10, 5 * 10**9, 25 * 10**8, 10**9, 10**8) == rates_bit_per_s(modes)
    assert () == rates_bit_per_s(1 << 6)
    assert () == rates_bit_per_s(0)
