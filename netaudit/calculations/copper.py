"""Twisted pair: what the published limits promise over a channel, judged by bounds where a fact is unknown."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache

from netaudit.calculations.promise import Promise, firm, gravest
from netaudit.model.finding import Measure
from netaudit.model.plan import COPPER_CATEGORIES, Regime
from netaudit.standards.copper import CopperReach, conductor_rule, copper_reach, cord_rule, most_connections, warm_rule
from netaudit.standards.phys import base_t, phys

TOLERANCE_M = 1e-6
"""Lengths that differ by less are equal [m]."""
SHORT_CHANNEL_M = 30.0
"""Longest channel at the rates of category 8 [m]; IEEE 802.3 clause 113."""
SHORT_SHARE = 24.0 / 90.0
"""Solid cable in a channel of 30 m against that in one of 100 m [ratio]; ISO/IEC 11801-1, classes I and II."""


@dataclass(frozen=True, slots=True)
class Cord:
    """A stranded cord of known length."""

    length_m: float
    gauge_awg: int | None
    """None is unknown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CopperRun:
    """What decides about a channel of twisted pair."""

    lowest_category: str | None
    """Lowest category known in it; None if none is."""
    category_known: bool
    """Whether every part's category is known, so that the lowest one is the channel's."""
    screened: bool
    """Whether every part is."""
    fixed_m: float
    """Solid cable of known length [m]."""
    cords: tuple[Cord, ...]
    """Cords of known length."""
    length_known: bool
    """Whether every part's length is known, so that the sums are the channel's."""
    connections: int
    """Passive ports in it."""
    ambient_c: float
    """Warmest air along its solid cable [°C]."""
    clad: bool
    """Whether any of its conductors are copper-clad aluminium."""

    @property
    def least_m(self) -> float:
        """Length of the parts that are known [m]."""
        return self.fixed_m + sum(cord.length_m for cord in self.cords)

    @property
    def length_m(self) -> float | None:
        """Physical length [m]; None if a part's is unknown."""
        return self.least_m if self.length_known else None


def possible_categories(run: CopperRun) -> tuple[str, ...]:
    """The categories that the channel may have: the one it has, or any up to the lowest known."""
    if run.lowest_category is None:
        return COPPER_CATEGORIES
    place = COPPER_CATEGORIES.index(run.lowest_category)
    return COPPER_CATEGORIES[place : place + 1] if run.category_known else COPPER_CATEGORIES[: place + 1]


def reach(rate_bit_per_s: int, category: str, *, screened: bool) -> CopperReach | None:
    """The published reach of a rate over a category; None if that category is not specified for it."""
    phy = base_t(rate_bit_per_s)
    return copper_reach().get((phy, category, screened)) if phy else None


@cache
def base_t_rates() -> tuple[int, ...]:
    """Every rate over twisted pair, the highest first [bit/s]."""
    return tuple(sorted((phy.rate_bit_per_s for phy in phys().values() if phy.medium == "copper"), reverse=True))


def possible_reaches(run: CopperRun, rates: Iterable[int]) -> tuple[CopperReach, ...]:
    """The published reach of each rate [bit/s] over each category that the channel may have.

    Where a category is not specified for a rate, the highest rate below it counts for which it is.
    """
    found = []
    for rate in rates:
        lower_rates = [lower for lower in base_t_rates() if lower <= rate]
        for category in possible_categories(run):
            rows = (reach(lower, category, screened=run.screened) for lower in lower_rates)
            row = next((row for row in rows if row is not None), None)
            if row is not None:
                found.append(row)
    return tuple(found)


def enough_category(run: CopperRun, rate_bit_per_s: int) -> CopperReach | None:
    """The lowest category that is promised to carry a rate over the known length; None if there is none."""
    for category in COPPER_CATEGORIES:
        row = reach(rate_bit_per_s, category, screened=run.screened)
        if row is not None and row.assured_m is not None and run.least_m <= row.assured_m + TOLERANCE_M:
            return row
    return None


def loss_equivalent_m(run: CopperRun, regime: Regime) -> float | None:
    """Length of solid cable that loses as much as the channel [m]; None if a length or a needed gauge is unknown."""
    least, most = loss_bounds_m(run, regime)
    return least if run.length_known and least == most else None


def loss_bounds_m(run: CopperRun, regime: Regime) -> tuple[float, float]:
    """Least and most length of solid cable that loses as much as the known parts [m]."""
    rule = cord_rule(regime)
    least = run.fixed_m + sum(cord.length_m * rule.least_factor(cord.gauge_awg) for cord in run.cords)
    most = run.fixed_m + sum(cord.length_m * rule.most_factor(cord.gauge_awg) for cord in run.cords)
    return least, most


def copper_promise(run: CopperRun, rate_bit_per_s: int, regime: Regime) -> Promise:
    """Whether the published limits promise a rate over a channel.

    Parameters: the channel; the rate [bit/s]; whose rules count. The answer is `undecided` only where the possible
    values of what is unknown lead to different answers. No category has conductors of clad aluminium, so such a
    channel is refused every rate.
    """
    if run.clad:
        return firm(Promise("no", None, conductor_rule(), "material"))
    answers = [_over_category(run, rate_bit_per_s, regime, category) for category in possible_categories(run)]
    if len({answer.answer for answer in answers}) == 1:
        return answers[-1]
    return Promise("undecided", None, None, "category")


def _over_category(run: CopperRun, rate_bit_per_s: int, regime: Regime, category: str) -> Promise:
    row = reach(rate_bit_per_s, category, screened=run.screened)
    if row is None:
        return Promise("no", None, None, "category")
    assured = None if row.assured_m is None else Measure(row.assured_m, "m")
    objections = [*_length_objections(run, rate_bit_per_s, row), *_cord_objections(run, rate_bit_per_s, regime)]
    objections += _warmth_objections(run, row, regime)
    return gravest(objections, Promise("yes", assured, row.source, "length"))


def _length_objections(run: CopperRun, rate_bit_per_s: int, row: CopperReach) -> Iterator[Promise]:
    most = most_connections(rate_bit_per_s)
    if run.connections > most.count:
        yield firm(Promise("no", Measure(most.count, ""), most.source, "connections"))
    if run.least_m > row.possible_m + TOLERANCE_M:
        yield firm(Promise("no", Measure(row.possible_m, "m"), row.source, "length"))
    elif row.assured_m is None or run.least_m > row.assured_m + TOLERANCE_M:
        yield firm(Promise("no", Measure(row.assured_m or 0.0, "m"), row.source, "reach"))
    elif not run.length_known:
        yield Promise("undecided", None, row.source, "length")


def _cord_objections(run: CopperRun, rate_bit_per_s: int, regime: Regime) -> Iterator[Promise]:
    """Cords eat up the loss that a channel may have."""
    rule = cord_rule(regime)
    allowed = rule.budgets[rate_bit_per_s]
    budget = Measure(allowed.value, "m")
    doubtful = [cord for cord in run.cords if not rule.source_of(cord.gauge_awg).may_fail]
    certain = replace(run, cords=tuple(cord for cord in run.cords if cord not in doubtful))
    least, most = loss_bounds_m(run, regime)
    if loss_bounds_m(certain, regime)[0] > budget.value + TOLERANCE_M:
        yield firm(Promise("no", budget, allowed.source, "cords"))
    elif most > budget.value + TOLERANCE_M:
        source = rule.source_of(doubtful[0].gauge_awg) if least > budget.value + TOLERANCE_M else allowed.source
        yield Promise("undecided", budget, source, "cords")


def _warmth_objections(run: CopperRun, row: CopperReach, regime: Regime) -> Iterator[Promise]:
    """Warmth raises the loss. The rules are for channels of 100 m; the lengths of a short one are in proportion."""
    warm = warm_rule(regime, run.screened)
    full_m = warm.allowed_fixed_m(run.ambient_c)
    if full_m is None:
        yield Promise("undecided", Measure(warm.to_c, "°C"), warm.source, "warmth")
        return
    allowed_m = full_m * SHORT_SHARE if row.possible_m <= SHORT_CHANNEL_M else full_m
    if run.ambient_c > warm.from_c and run.fixed_m > allowed_m + TOLERANCE_M:
        yield firm(Promise("no", Measure(allowed_m, "m"), warm.source, "warmth"))
