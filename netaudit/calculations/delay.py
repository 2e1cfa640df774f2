"""Delay of twisted pair over frequency."""

from __future__ import annotations

from math import sqrt

from netaudit.standards.delay import DelayLimit

LIGHT_M_PER_NS = 0.299792458
"""Speed of light in a vacuum [m/ns]; the definition of the metre."""


def delay_ns(limit: DelayLimit, frequency_mhz: float) -> float:
    """The most delay, or skew, that a limit allows [ns] at a frequency [MHz]."""
    cable_ns_per_100_m = limit.cable_ns_per_100_m + limit.cable_root_ns_per_100_m / sqrt(frequency_mhz)
    return limit.cable_m / 100 * cable_ns_per_100_m + limit.connections * limit.connector_ns


def velocity_share(limit: DelayLimit, frequency_mhz: float) -> float:
    """How fast a signal travels in the cable against light in a vacuum [ratio] at a frequency [MHz], at least."""
    cable_ns_per_100_m = limit.cable_ns_per_100_m + limit.cable_root_ns_per_100_m / sqrt(frequency_mhz)
    return 100 / cable_ns_per_100_m / LIGHT_M_PER_NS
