"""Made-up cables: how long the published limits let direct attach and active optical cables be."""

from __future__ import annotations

from netaudit.calculations.promise import Promise, firm
from netaudit.model.finding import Measure
from netaudit.standards.twinax import twinax_reach

TOLERANCE_M = 1e-9
"""Lengths that differ by less are equal [m]."""


def twinax_promise(rate_bit_per_s: int, kind: str, *, least_m: float, length_m: float | None) -> Promise:
    """Whether a made-up cable is promised to run a rate.

    Parameters: the rate of one end [bit/s], which in a breakout is the lane's; twinax, active-twinax or
    active-optical; the length that is known and the whole length [m], None if unknown. It turns on `length`, `maker`
    (no standard limits an active optical cable, so its maker answers for any length) or `rate` (in no table).
    """
    row = twinax_reach().get((rate_bit_per_s, kind))
    if row is None:
        return Promise("undecided", None, None, "rate")
    if row.reach_m is None:
        return Promise("yes", None, row.source, "maker")
    limit = Measure(row.reach_m, "m")
    if least_m > row.reach_m + TOLERANCE_M:
        return firm(Promise("no", limit, row.source, "length"))
    if length_m is None:
        return Promise("undecided", None, row.source, "length")
    return Promise("yes", limit, row.source, "length")
