"""Made-up cables: how long the published limits let direct attach and active optical cables be."""

from __future__ import annotations

from collections.abc import Iterable

from netaudit.calculations.promise import Promise, firm
from netaudit.model.finding import Measure
from netaudit.standards.twinax import TwinaxReach, twinax_reach, twinax_reach_of

TOLERANCE_M = 1e-9
"""Lengths that differ by less are equal [m]."""


def twinax_limit(rate_bit_per_s: int, kind: str, modules: Iterable[str | None] = ()) -> TwinaxReach | None:
    """How long a made-up cable may be at a rate [bit/s]; None if no table has it.

    The physical layers that its ends are said to run decide, the shorter of them; or else the usual one.
    """
    said = [row for module in modules if module and (row := twinax_reach_of().get((module, kind)))]
    fitting = [row for row in said if row.rate_bit_per_s == rate_bit_per_s and row.reach_m is not None]
    return min(fitting, key=lambda row: row.reach_m or 0.0, default=twinax_reach().get((rate_bit_per_s, kind)))


def twinax_promise(
    rate_bit_per_s: int, kind: str, *, least_m: float, length_m: float | None, modules: Iterable[str | None] = ()
) -> Promise:
    """Whether a made-up cable is promised to run a rate.

    Parameters: the rate of one end [bit/s], which in a breakout is the lane's; twinax, active-twinax or
    active-optical; the length that is known and the whole length [m], None if unknown; the physical layers that its
    ends are said to run. It turns on `length`, `maker` (no standard limits an active optical cable, so its maker
    answers for any length) or `rate` (in no table).
    """
    row = twinax_limit(rate_bit_per_s, kind, modules)
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
