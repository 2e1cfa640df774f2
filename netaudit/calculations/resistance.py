"""Resistance of a loop of copper conductors."""

from __future__ import annotations

from netaudit.standards.resistance import conductor_resistance

COPPER_SHARE_PER_C = 0.00393
"""How much the resistance of copper grows with each degree from 20 °C [ratio/°C]; any handbook of physics."""


def loop_ohm(length_m: float, gauge_awg: int, temperature_c: float = 20.0) -> float:
    """Resistance of a pair there and back [ohm].

    Parameters: length of the cable [m]; gauge of its solid copper [AWG]; its temperature [°C]. KeyError for a gauge
    in no table.
    """
    conductor_ohm = conductor_resistance()[gauge_awg].value * length_m / 1000
    return 2 * conductor_ohm * (1 + COPPER_SHARE_PER_C * (temperature_c - 20))
