"""Resistance of conductors by gauge, and its limits."""

from math import pi

import pytest

from netaudit.standards.resistance import conductor_resistance, resistance_limits


@pytest.mark.parametrize("gauge_awg", sorted(conductor_resistance()))
def test_a_conductor_has_the_resistance_of_its_gauge(gauge_awg: int) -> None:
    """ASTM B258: 0.127 mm x 92^((36 - n) / 39); copper of 1.724e-8 ohm m, IEC 60028."""
    diameter_m = 0.127e-3 * 92 ** ((36 - gauge_awg) / 39)
    ohm_per_km = 1.724e-8 / (pi / 4 * diameter_m**2) * 1000
    assert ohm_per_km == pytest.approx(conductor_resistance()[gauge_awg].value, rel=0.005)


def test_24_awg_is_within_the_limit_of_solid_cable_and_26_awg_within_that_of_cords() -> None:
    """A cable maker's tables give 28.6 ohm per 1000 ft as the limit of solid cable."""
    limit = resistance_limits()["solid cable", "one conductor"].most_ohm_per_km
    assert limit == pytest.approx(28.6 / 0.3048, abs=0.05)
    assert conductor_resistance()[24].value < limit < conductor_resistance()[25].value
    cord = resistance_limits()["cord of 26 AWG", "one conductor"].most_ohm_per_km
    assert cord is not None
    assert conductor_resistance()[26].value < cord


def test_a_loop_of_a_channel_has_at_most_25_ohm() -> None:
    """cn.belden.com, 28 AWG cabling and ANSI/TIA-568.2-D."""
    assert 25 == resistance_limits()["channel", "loop of a pair"].most_ohm


def test_every_limit_has_a_figure() -> None:
    for row in resistance_limits().values():
        assert {row.most_ohm, row.most_ohm_per_km, row.most_percent} != {None}


def test_pairs_may_differ_by_7_percent_or_a_tenth_of_an_ohm() -> None:
    """Message 466 of the IEEE 802.3 4PPOE group, 2014."""
    row = resistance_limits()["channel", "difference between pairs"]
    assert (7, 0.1) == (row.most_percent, row.most_ohm)
