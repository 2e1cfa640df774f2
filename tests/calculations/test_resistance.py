"""Loops of copper."""

import pytest

from netaudit.calculations.resistance import loop_ohm


def test_a_channel_of_24_awg_keeps_the_limit_and_one_of_28_awg_does_not() -> None:
    """Two conductors of 84.20 and of 212.87 ohm/km (wp.1728.org/?p=4314) over 100 m, against 25 ohm."""
    assert 16.84 == pytest.approx(loop_ohm(100, 24))
    assert 42.574 == pytest.approx(loop_ohm(100, 28))


def test_warm_copper_resists_more() -> None:
    """0.393 % for each degree from 20 °C: 40 degrees more are 15.72 %."""
    assert 1.1572 == pytest.approx(loop_ohm(100, 24, 60) / loop_ohm(100, 24))
    assert loop_ohm(100, 24, 0) < loop_ohm(100, 24)


def test_a_gauge_in_no_table_has_no_resistance() -> None:
    with pytest.raises(KeyError):
        loop_ohm(100, 27)
