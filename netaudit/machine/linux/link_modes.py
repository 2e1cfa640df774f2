"""The kernel's numbers of Ethernet's link modes, and the rate of each.

Source: `enum ethtool_link_mode_bit_indices` of linux/ethtool.h (Linux 6.18). What is left out of the enumeration is no
mode but a property: negotiation, plugs, pause, error correction.
"""

from __future__ import annotations

_BITS_BY_MBIT_PER_S: dict[int, tuple[int, ...]] = {
    10: (0, 1, 92, 99, 100, 101, 102),
    100: (2, 3, 67, 90, 91),
    1_000: (4, 5, 17, 41, 68),
    2_500: (15, 47),
    5_000: (48,),
    10_000: (12, 18, 19, 20, 42, 43, 44, 45, 46),
    20_000: (21, 22),
    25_000: (31, 32, 33),
    40_000: (23, 24, 25, 26),
    50_000: (34, 35, 40, 52, 53, 54, 55, 56),
    56_000: (27, 28, 29, 30),
    100_000: (36, 37, 38, 39, 57, 58, 59, 60, 61, 75, 76, 77, 78, 79),
    200_000: (62, 63, 64, 65, 66, 80, 81, 82, 83, 84, 103, 104, 105, 106, 107, 108),
    400_000: (69, 70, 71, 72, 73, 85, 86, 87, 88, 89, 109, 110, 111, 112, 113, 114),
    800_000: (93, 94, 95, 96, 97, 98, 115, 116, 117, 118, 119, 120),
    1_600_000: (121, 122, 123, 124),
}

RATES_BIT_PER_S: dict[int, int] = {bit: rate * 1_000_000 for rate, bits in _BITS_BY_MBIT_PER_S.items() for bit in bits}
"""Number of a link mode to its rate [bit/s]."""


def rates_bit_per_s(modes: int) -> tuple[int, ...]:
    """The rates of a set of link modes, one bit each, the highest first [bit/s]."""
    found = {rate for bit, rate in RATES_BIT_PER_S.items() if modes >> bit & 1}
    return tuple(sorted(found, reverse=True))
