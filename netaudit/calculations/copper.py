"""Twisted pair: what the published limits promise over a channel, judged by bounds where a fact is unknown."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

from netaudit.calculations.copper_run import TOLERANCE_M, CopperRun, loss_budget, warm_limit
from netaudit.calculations.promise import Promise, firm, gravest
from netaudit.model.finding import Measure
from netaudit.model.plan import COPPER_CATEGORIES, Regime
from netaudit.standards.copper import CopperReach, conductor_rule, copper_reach, most_connections
from netaudit.standards.phys import base_t, phys


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
    return _reaches(possible_categories(run), run.screened, tuple(rates))


@cache
def _reaches(categories: tuple[str, ...], screened: bool, rates: tuple[int, ...]) -> tuple[CopperReach, ...]:  # noqa: FBT001 - a key
    found = []
    for rate in rates:
        lower_rates = [lower for lower in base_t_rates() if lower <= rate]
        for category in categories:
            rows = (reach(lower, category, screened=screened) for lower in lower_rates)
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


def room_left_m(run: CopperRun, row: CopperReach, regime: Regime, factor: float) -> float:
    """Length that one more part may have and the rate of a row is still promised [m]; 0 or less where none may.

    `factor` is the loss of that part against solid cable of its length [ratio]: 1 for solid cable itself.
    """
    loss = loss_budget(run, phys()[row.phy].rate_bit_per_s, regime)
    limit = warm_limit(run, row, regime)
    left_m = min((row.assured_m or 0.0) - run.least_m, (loss.allowed_m - loss.most_m) / factor)
    if factor == 1.0 and limit.warm and limit.allowed_m is not None:
        return min(left_m, limit.allowed_m - run.fixed_m)
    return left_m


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
    loss = loss_budget(run, rate_bit_per_s, regime)
    if loss.broken:
        yield firm(Promise("no", Measure(loss.allowed_m, "m"), loss.source, "cords"))
    elif loss.doubtful:
        yield Promise("undecided", Measure(loss.allowed_m, "m"), loss.source, "cords")


def _warmth_objections(run: CopperRun, row: CopperReach, regime: Regime) -> Iterator[Promise]:
    """Warmth raises the loss."""
    limit = warm_limit(run, row, regime)
    if limit.allowed_m is None:
        yield Promise("undecided", Measure(limit.rule.to_c, "°C"), limit.rule.source, "warmth")
    elif limit.broken:
        yield firm(Promise("no", Measure(limit.allowed_m, "m"), limit.rule.source, "warmth"))
