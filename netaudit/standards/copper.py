"""Twisted pair: how far each rate reaches, which connections and cords it bears, and what warmth takes away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.phys import phys
from netaudit.standards.reading import Row, table

GAUGES_AWG = (22, 23, 24, 26, 28)
"""Gauges of stranded cord that the tables know [AWG]."""


class CopperReach(NamedTuple):
    """How far a physical layer reaches over a channel of one category."""

    phy: str
    category: str
    screened: bool
    assured_m: float | None
    """Promised up to here [m]; None if nothing promises it at any length."""
    possible_m: float
    """Works up to here under conditions [m]; beyond is too long."""
    source: Citation


@dataclass(frozen=True, slots=True)
class Count:
    """A number of things."""

    count: int
    source: Citation


class Figure(NamedTuple):
    """A number, whose unit stands with the table it is in."""

    value: float
    source: Citation


class CordRule(NamedTuple):
    """How one body of rules counts stranded cords, which lose more than solid cable."""

    regime: str
    factors: Mapping[int, Figure]
    """Gauge [AWG] to loss of a cord against solid cable of its length [ratio]."""
    bounds: Mapping[int | None, tuple[float, float]]
    """Gauge [AWG], None being unknown, to the least and the most of it [ratio]."""
    budgets: Mapping[int, Figure]
    """Rate [bit/s] to the most solid cable that a channel may be worth [m]."""

    def least_factor(self, gauge_awg: int | None) -> float:
        """Loss of a cord against solid cable, at least [ratio]; an unknown gauge [AWG] is the best one."""
        return self.bounds[gauge_awg][0]

    def most_factor(self, gauge_awg: int | None) -> float:
        """Loss of a cord against solid cable, at most [ratio]; an unknown gauge [AWG] is the worst one."""
        return self.bounds[gauge_awg][1]

    @property
    def best_gauge_awg(self) -> int:
        """The gauge that loses least, as far as is firmly known [AWG]; of equals, the thinnest."""
        firm = [gauge for gauge, factor in self.factors.items() if factor.source.may_fail]
        return min(firm, key=lambda gauge: (self.factors[gauge].value, -gauge))

    @property
    def source(self) -> Citation:
        """What the rule as such rests on."""
        return next(iter(self.budgets.values())).source

    def source_of(self, gauge_awg: int | None) -> Citation:
        """Where the loss of a cord of this gauge [AWG] comes from; the rule itself for an unknown one."""
        return self.source if gauge_awg is None else self.factors[gauge_awg].source


class WarmLine(NamedTuple):
    """One straight piece of the length that warmth leaves."""

    from_c: float
    """Air at its cool end [°C]."""
    to_c: float
    """Air at its warm end [°C]."""
    fixed_at_from_m: float
    """Solid cable allowed at the cool end [m]."""
    shorter_m_per_c: float
    """What each degree takes away [m/°C]."""


class WarmRule(NamedTuple):
    """How much solid cable one body of rules allows in warm air."""

    regime: str
    screened: bool
    lines: tuple[WarmLine, ...]
    """From the coolest to the warmest, each starting where the last one ends."""
    source: Citation

    @property
    def from_c(self) -> float:
        """Air up to which nothing is taken away [°C]."""
        return self.lines[0].from_c

    @property
    def to_c(self) -> float:
        """Warmest air that the rule covers [°C]."""
        return self.lines[-1].to_c

    def allowed_fixed_m(self, air_c: float) -> float | None:
        """Solid cable allowed at a temperature of the air [°C], in metres; None in air that no rule covers."""
        air_c = max(air_c, self.from_c)
        for line in self.lines:
            if air_c <= line.to_c:
                return line.fixed_at_from_m - line.shorter_m_per_c * (air_c - line.from_c)
        return None

    def warmest_c(self, fixed_m: float) -> float:
        """Warmest air in which a length of solid cable [m] is allowed [°C]; where nothing is taken away, any is."""
        for line in reversed(self.lines):
            if fixed_m <= line.fixed_at_from_m:
                return min(line.to_c, line.from_c + (line.fixed_at_from_m - fixed_m) / line.shorter_m_per_c)
        return self.from_c


@cache
def copper_reach() -> Mapping[tuple[str, str, bool], CopperReach]:
    """Reach by physical layer, category and screen; no row where the category is not specified for it."""
    return {
        (row.text("phy"), row.text("category"), screened): CopperReach(
            phy=row.text("phy"),
            category=row.text("category"),
            screened=screened,
            assured_m=row.optional_number("assured_m"),
            possible_m=row.number("possible_m"),
            source=row.citation(),
        )
        for row in table("copper_reach.csv")
        for screened in _screens(row)
    }


@cache
def most_connections(rate_bit_per_s: int) -> Count:
    """The most connections in a channel; KeyError for a rate [bit/s] without a BASE-T layer."""
    return _connections()[rate_bit_per_s]


@cache
def _connections() -> Mapping[int, Count]:
    return {
        phys()[row.text("phy")].rate_bit_per_s: Count(row.whole("most_connections"), row.citation())
        for row in table("connections.csv")
    }


@cache
def conductor_rule() -> Citation:
    """What asks for conductors of copper all through in every category of twisted pair."""
    return next(row.citation() for row in table("conductors.csv") if row.text("conductor") == "solid copper")


@cache
def cord_rule(regime: str) -> CordRule:
    """How a body of rules, iso or tia, counts stranded cords."""
    factors = {
        gauge: Figure(row.number("loss_factor"), row.citation())
        for row in table("cords.csv")
        if row.text("regime") == regime
        for gauge in (GAUGES_AWG if row.text("gauge_awg") == "any" else (row.whole("gauge_awg"),))
    }
    budgets = {
        phys()[row.text("phy")].rate_bit_per_s: Figure(row.number("solid_equivalent_m"), row.citation())
        for row in table("cord_budgets.csv")
        if row.text("regime") == regime
    }
    losses = [figure.value for figure in factors.values()]
    bounds: dict[int | None, tuple[float, float]] = {gauge: (one.value, one.value) for gauge, one in factors.items()}
    bounds[None] = min(losses), max(losses)
    return CordRule(regime, factors, bounds, budgets)


@cache
def warm_rule(regime: str, screened: bool) -> WarmRule:  # noqa: FBT001 - a key of the table
    """How much solid cable a body of rules, iso or tia, allows in warm air."""
    rows = [row for row in table("temperature.csv") if row.text("regime") == regime and screened in _screens(row)]
    lines = tuple(
        WarmLine(
            from_c=row.number("from_c"),
            to_c=row.number("to_c"),
            fixed_at_from_m=row.number("fixed_at_from_m"),
            shorter_m_per_c=row.number("shorter_m_per_c"),
        )
        for row in rows
    )
    return WarmRule(regime, screened, lines, rows[0].citation())


def _screens(row: Row) -> tuple[bool, ...]:
    return {"yes": (True,), "no": (False,), "any": (False, True)}[row.text("screened")]
