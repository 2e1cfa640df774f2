"""Goodput against published throughput figures, and its order in rate, packet and headers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.calculations.goodput import (
    FRAME_OCTETS,
    IPV4_OCTETS,
    IPV6_OCTETS,
    TAG_OCTETS,
    TCP_OCTETS,
    TIMESTAMP_OCTETS,
    goodput_bit_per_s,
    tcp_goodput_bit_per_s,
)

GIGA = 1_000_000_000
UDP_OCTETS = 8
rates = st.integers(min_value=1, max_value=400 * GIGA)
mtus = st.integers(min_value=576, max_value=65535)


@pytest.mark.parametrize(
    ("mtu", "ip_octets", "options_octets", "mega", "tagged_mega"),
    [
        # Worked pages on 1 Gb/s Ethernet, such as rickardnobel.se, Actual throughput on Gigabit Ethernet, give 949.28
        # and 941.48; the other rows are the same arithmetic on RFC 791, 8200, 9293 and 7323 headers.
        (1500, IPV4_OCTETS, 0, 949.28, 946.82),
        (1500, IPV4_OCTETS, TIMESTAMP_OCTETS, 941.48, 939.04),
        (1500, IPV6_OCTETS, 0, 936.28, 933.85),
        (1500, IPV6_OCTETS, TIMESTAMP_OCTETS, 928.48, 926.07),
        (9000, IPV4_OCTETS, 0, 991.37, 990.93),
        (9000, IPV4_OCTETS, TIMESTAMP_OCTETS, 990.04, 989.60),
        (9000, IPV6_OCTETS, 0, 989.16, 988.72),
        (9000, IPV6_OCTETS, TIMESTAMP_OCTETS, 987.83, 987.39),
    ],
)
def test_tcp_over_1_gb_per_s(mtu: int, ip_octets: int, options_octets: int, mega: float, tagged_mega: float) -> None:
    header_octets = ip_octets + TCP_OCTETS + options_octets
    assert mega == round(goodput_bit_per_s(GIGA, mtu, header_octets=header_octets) / 1e6, 2)
    tagged = goodput_bit_per_s(GIGA, mtu, header_octets=header_octets, tag_octets=TAG_OCTETS)
    assert tagged_mega == round(tagged / 1e6, 2)


@pytest.mark.parametrize(("mtu", "mega"), [(1500, 957.09), (9000, 992.70)])
def test_udp_over_1_gb_per_s(mtu: int, mega: float) -> None:
    """The same worked pages, with the 8 octets of RFC 768."""
    assert mega == round(goodput_bit_per_s(GIGA, mtu, header_octets=IPV4_OCTETS + UDP_OCTETS) / 1e6, 2)


@pytest.mark.parametrize(
    ("rate_bit_per_s", "mtu", "goodput"),
    [
        (10 * GIGA, 9000, 9_900_420_447),
        (GIGA, 1500, 941_482_445),
        (2_500_000_000, 1500, 2_353_706_112),
        (5 * GIGA, 1500, 4_707_412_224),
        (10 * GIGA, 1500, 9_414_824_447),
        (100 * GIGA, 9000, 99_004_204_470),
    ],
)
def test_tcp_goodput_is_exact_to_the_bit(rate_bit_per_s: int, mtu: int, goodput: int) -> None:
    """Worked with a pocket calculator from rate x (MTU - 52) / (MTU + 38)."""
    assert goodput == tcp_goodput_bit_per_s(rate_bit_per_s, mtu)


@pytest.mark.parametrize(("frame_octets", "per_second"), [(64, 1_488_095), (1518, 81_274)])
def test_the_gaps_between_frames_give_the_known_frame_rates(frame_octets: int, per_second: int) -> None:
    """RFC 2544 test tables and forum.digital-stage.org: 1,488,000 and 81,274 frames each second at 1 Gb/s."""
    header_and_check_octets = 18
    wire_octets = frame_octets - header_and_check_octets + FRAME_OCTETS
    assert per_second == GIGA // (wire_octets * 8)


@pytest.mark.parametrize("mtu", [0, 20, 52])
def test_a_packet_that_its_headers_fill_carries_nothing(mtu: int) -> None:
    assert tcp_goodput_bit_per_s(GIGA, mtu) == 0


@given(rates, mtus)
def test_goodput_stays_under_the_rate(rate_bit_per_s: int, mtu: int) -> None:
    assert tcp_goodput_bit_per_s(rate_bit_per_s, mtu) <= rate_bit_per_s
    if rate_bit_per_s >= GIGA:
        assert tcp_goodput_bit_per_s(rate_bit_per_s, mtu) < rate_bit_per_s


@given(rates, mtus, mtus)
def test_a_larger_packet_never_carries_less(rate_bit_per_s: int, one: int, other: int) -> None:
    small, large = sorted((one, other))
    assert tcp_goodput_bit_per_s(rate_bit_per_s, small) <= tcp_goodput_bit_per_s(rate_bit_per_s, large)


@given(rates, mtus, st.integers(min_value=0, max_value=8))
def test_a_tag_never_adds(rate_bit_per_s: int, mtu: int, tag_octets: int) -> None:
    bare = goodput_bit_per_s(rate_bit_per_s, mtu, header_octets=52)
    assert goodput_bit_per_s(rate_bit_per_s, mtu, header_octets=52, tag_octets=tag_octets) <= bare
