"""Delay and skew against published values."""

import pytest

from netaudit.calculations.delay import delay_ns, velocity_share
from netaudit.standards.delay import delays


@pytest.mark.parametrize(
    ("part", "frequency_mhz", "ns", "within_ns"),
    [
        # ISO/IEC 11801 amendment 1, scribd.com/document/494776127: channel 580, 555, 548 and 546 ns
        ("channel", 1, 580, 0.5),
        ("channel", 10, 555, 0.5),
        ("channel", 100, 547.6, 0.05),
        ("channel", 250, 546, 0.5),
        # Trulove, LAN Wiring (what-when-how.com/LAN-Wiring-125): 548 ns
        ("channel", 100, 548, 0.5),
        # A cable maker's table and the data sheet PF_10GX13, catalog.belden.com
        ("cable", 1, 570, 0.05),
        ("cable", 10, 545.4, 0.05),
        ("cable", 16, 543, 0.05),
        ("cable", 100, 537.6, 0.05),
        ("cable", 250, 536.3, 0.05),
        ("cable", 500, 535.6, 0.05),
        # Well-known value of a permanent link; remembered, not seen in print
        ("link", 10, 498, 0.5),
    ],
)
def test_a_signal_travels_as_long_as_published(part: str, frequency_mhz: float, ns: float, within_ns: float) -> None:
    assert ns == pytest.approx(delay_ns(delays()["delay", "any", part], frequency_mhz), abs=within_ns)


@pytest.mark.parametrize(("frequency_mhz", "percent"), [(1, 58.5), (10, 61.1), (100, 62.0)])
def test_a_signal_is_as_fast_as_published(frequency_mhz: float, percent: float) -> None:
    """Trulove, LAN Wiring (what-when-how.com/LAN-Wiring-320)."""
    assert percent == pytest.approx(100 * velocity_share(delays()["delay", "any", "cable"], frequency_mhz), abs=0.1)


@pytest.mark.parametrize(
    ("categories", "part", "ns", "within_ns"),
    [
        # Trulove, LAN Wiring (what-when-how.com/LAN-Wiring-320 and -125)
        ("5e to 6A", "cable", 45, 0),
        ("5e to 6A", "channel", 50, 0),
        # Well-known values; remembered, not seen in print
        ("5e to 6A", "link", 44, 0.5),
        ("7 and 7A", "channel", 30, 0),
        ("7 and 7A", "link", 26, 0.5),
    ],
)
def test_pairs_differ_by_as_much_as_published(categories: str, part: str, ns: float, within_ns: float) -> None:
    for frequency_mhz in (1, 100):
        assert ns == pytest.approx(delay_ns(delays()["skew", categories, part], frequency_mhz), abs=within_ns)
