"""A run of twisted pair: what it is made of, what its cords lose, and what warm air takes from it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

from netaudit.model.plan import Regime
from netaudit.standards.copper import CopperReach, WarmRule, cord_rule, warm_rule
from netaudit.standards.reading import Citation

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


class LossBudget(NamedTuple):
    """What the known parts of a channel are worth in solid cable, against what they may be worth at its rate."""

    least_m: float
    """Worth with the best cords that may be meant [m]."""
    most_m: float
    """Worth with the worst of them [m]."""
    allowed_m: float
    """The most solid cable that the channel may be worth [m]."""
    source: Citation
    """Of what is allowed, or of the cord whose loss is only remembered where it takes that one to break it."""

    @property
    def broken(self) -> bool:
        """Whether more is lost than allowed, whatever the unknown gauges are."""
        return self.least_m > self.allowed_m + TOLERANCE_M

    @property
    def doubtful(self) -> bool:
        """Whether more may be lost than allowed."""
        return self.most_m > self.allowed_m + TOLERANCE_M


def loss_budget(run: CopperRun, rate_bit_per_s: int, regime: Regime) -> LossBudget:
    """The loss of a channel and its cords at a rate of twisted pair [bit/s]; KeyError for any other rate."""
    rule = cord_rule(regime)
    allowed = rule.budgets[rate_bit_per_s]
    least, most = loss_bounds_m(run, regime)
    remembered = [cord for cord in run.cords if not rule.source_of(cord.gauge_awg).may_fail]
    certain = replace(run, cords=tuple(cord for cord in run.cords if cord not in remembered))
    on_memory = loss_bounds_m(certain, regime)[0] <= allowed.value + TOLERANCE_M < least
    source = rule.source_of(remembered[0].gauge_awg) if on_memory else allowed.source
    return LossBudget(least, most, allowed.value, source)


class WarmLimit(NamedTuple):
    """The solid cable of a channel against what the warmest air along it allows."""

    fixed_m: float
    """Solid cable of known length [m]."""
    air_c: float
    """Warmest air along it [°C]."""
    rule: WarmRule
    share: float
    """Its solid cable against that in a channel of 100 m, which the rule is for [ratio]."""

    @property
    def allowed_m(self) -> float | None:
        """Solid cable allowed in that air [m]; None in air that no rule covers."""
        full_m = self.rule.allowed_fixed_m(self.air_c)
        return None if full_m is None else full_m * self.share

    @property
    def warm(self) -> bool:
        """Whether the air takes anything away."""
        return self.air_c > self.rule.from_c

    @property
    def broken(self) -> bool:
        """Whether there is more solid cable than that air allows."""
        allowed_m = self.allowed_m
        return self.warm and allowed_m is not None and self.fixed_m > allowed_m + TOLERANCE_M

    @property
    def warmest_c(self) -> float:
        """Warmest air in which so much solid cable is allowed [°C]."""
        return self.rule.warmest_c(self.fixed_m / self.share)


def warm_limit(run: CopperRun, row: CopperReach, regime: Regime) -> WarmLimit:
    """What warmth takes away from a channel; the lengths of one that reaches only 30 m are in proportion."""
    share = SHORT_SHARE if row.possible_m <= SHORT_CHANNEL_M else 1.0
    return WarmLimit(run.fixed_m, run.ambient_c, warm_rule(regime, run.screened), share)
