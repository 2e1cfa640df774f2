"""Lengths in reports, without the digits of floating point."""

from __future__ import annotations

MICROMETRE_DIGITS = 6
"""Digits of a length in metres behind which floating point begins to show."""


def length_m(value_m: float | None) -> float | None:
    """A length, rounded to a micrometre; what rounds to nothing has no sign [m]."""
    return None if value_m is None else round(value_m, MICROMETRE_DIGITS) + 0.0
