"""Units: conversion factors, and the one way each quantity is written for people."""

from __future__ import annotations

BITS_PER_BYTE = 8
MM_PER_M = 1000
METRES_PER_KILOMETRE = 1000
METRES_PER_FOOT = 0.3048
METRES_PER_INCH = 0.0254
EQUAL_WITHIN_M = 1e-9
"""Difference up to which two lengths are the same [m]: the noise of binary fractions."""
METRIC_STEP_M = 0.25
"""What lengths that are sold in metres are multiples of [m]: common practice, no source."""
BOX_OF_1000_FEET_M = 304.8
"""The one length in feet that is sold where all others are metric [m]: common practice, no source."""


def rate_text(rate_bit_per_s: float) -> str:
    """A rate in bits alone: 10 Gb/s, 2.5 Gb/s, 941 Mb/s."""
    for factor, unit in ((1e9, "Gb/s"), (1e6, "Mb/s"), (1e3, "kb/s")):
        if rate_bit_per_s >= factor:
            return f"{_three_figures(rate_bit_per_s / factor)} {unit}"
    return f"{_three_figures(rate_bit_per_s)} b/s"


def byte_rate_text(rate_bit_per_s: float) -> str:
    """The same rate in bytes: 1238 MB/s, 2.5 MB/s."""
    megabytes_per_s = rate_bit_per_s / BITS_PER_BYTE / 1e6
    return f"{megabytes_per_s:.0f} MB/s" if megabytes_per_s >= 100 else f"{_three_figures(megabytes_per_s)} MB/s"


def both_rates_text(rate_bit_per_s: float) -> str:
    """A rate in both units, side by side: 9.9 Gb/s (1238 MB/s)."""
    return f"{rate_text(rate_bit_per_s)} ({byte_rate_text(rate_bit_per_s)})"


def length_text(length_m: float) -> str:
    """A length in metres, or in kilometres from one on, to the centimetre: 42 m, 0.5 m, 304.8 m, 1.5 km."""
    if round(length_m, 2) < METRES_PER_KILOMETRE:
        return f"{_trimmed(length_m, 2)} m"
    return f"{_trimmed(length_m / METRES_PER_KILOMETRE, 5)} km"


def sold_length_text(length_m: float) -> str:
    """A length as it stands in shops, in feet first where it is sold in feet: 3 m, 10 ft (3.05 m), 304.8 m (1000 ft).

    It is sold in feet if it is a whole or half number of them and no metric size.
    """
    metres = length_text(length_m)
    if _is_multiple(length_m, METRIC_STEP_M) or not _is_multiple(length_m, METRES_PER_FOOT / 2):
        return metres
    feet = f"{number_text(length_m / METRES_PER_FOOT)} ft"
    metric_first = abs(length_m - BOX_OF_1000_FEET_M) <= EQUAL_WITHIN_M
    return f"{metres} ({feet})" if metric_first else f"{feet} ({metres})"


def _is_multiple(length_m: float, step_m: float) -> bool:
    return abs(length_m - round(length_m / step_m) * step_m) <= EQUAL_WITHIN_M


def temperature_text(temperature_c: float) -> str:
    """A temperature: 24 °C."""
    return f"{_trimmed(temperature_c, 1)} °C"


def size_text(size_bytes: float) -> str:
    """An amount of data, counted in powers of ten: 2.1 GB, 640 kB, 0 B."""
    for factor, unit in ((1e12, "TB"), (1e9, "GB"), (1e6, "MB"), (1e3, "kB")):
        if size_bytes >= factor:
            return f"{_three_figures(size_bytes / factor)} {unit}"
    return f"{_three_figures(size_bytes)} B"


def duration_text(duration_s: float) -> str:
    """A stretch of time: 2.9 s, 0.2 ms, 52 µs."""
    for factor, unit in ((1.0, "s"), (1e-3, "ms")):
        if duration_s >= factor:
            return f"{_three_figures(duration_s / factor)} {unit}"
    return "0 s" if duration_s == 0 else f"{_three_figures(duration_s / 1e-6)} µs"


def share_text(share: float) -> str:
    """A share of one as per cent: 30 %."""
    return f"{_trimmed(share * 100, 1)} %"


def number_text(value: float) -> str:
    """A bare number without needless zeros: 62, 62.5."""
    return _trimmed(value, 2)


_COUNTED = ("frames", "handshakes", "octets", "times")
"""Units that are counted, so that there may be one."""


def measure_text(value: float, unit: str) -> str:
    """A number with its unit, a rate in both: 62 m, 2.6 dB, 9.9 Gb/s (1238 MB/s); a count where the unit is empty."""
    if unit == "bit/s" and value == 0:
        return "no rate"
    if value == 1 and unit in _COUNTED:
        return f"1 {unit.removesuffix('s')}"
    texts = {"bit/s": both_rates_text, "m": length_text, "°C": temperature_text}
    return texts[unit](value) if unit in texts else f"{number_text(value)} {unit}".rstrip()


def _three_figures(value: float) -> str:
    decimals = 2 if value < 10 else 1 if value < 100 else 0
    return _trimmed(value, decimals)


def _trimmed(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
