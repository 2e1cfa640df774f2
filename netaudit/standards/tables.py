"""The published tables, each read when it is first asked for and never again."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import cast

from netaudit.citation import Citation
from netaudit.standards.reading import Row, sources, table
from netaudit.standards.rows import (
    CopperReach,
    CordRule,
    Count,
    FibreAttenuation,
    FibreReach,
    Figure,
    HostBus,
    JointLoss,
    Medium,
    Phy,
    TwinaxReach,
    WarmLine,
    WarmRule,
)

__all__ = [
    "Citation",
    "CopperReach",
    "CordRule",
    "Count",
    "FibreAttenuation",
    "FibreReach",
    "Figure",
    "HostBus",
    "JointLoss",
    "Phy",
    "TwinaxReach",
    "WarmLine",
    "WarmRule",
    "base_t",
    "conductor_rule",
    "copper_reach",
    "cord_rule",
    "fibre_attenuation",
    "fibre_reach",
    "host_buses",
    "joints",
    "most_connections",
    "phys",
    "sources",
    "twinax_reach",
    "warm_rule",
]

GAUGES_AWG = (22, 23, 24, 26, 28)
"""Gauges of stranded cord that the tables know [AWG]."""


@cache
def phys() -> Mapping[str, Phy]:
    """Every physical layer by its designation."""
    return {
        row.text("name"): Phy(
            name=row.text("name"),
            rate_bit_per_s=row.whole("rate_bit_per_s"),
            medium=cast("Medium", row.text("medium")),
            clause=row.optional_text("clause"),
            source=row.citation(),
        )
        for row in table("phys.csv")
    }


@cache
def base_t(rate_bit_per_s: int) -> str | None:
    """The physical layer over twisted pair at a rate [bit/s]; None if there is none."""
    for phy in phys().values():
        if phy.medium == "copper" and phy.rate_bit_per_s == rate_bit_per_s:
            return phy.name
    return None


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


@cache
def fibre_reach() -> Mapping[tuple[str, str], FibreReach]:
    """Reach by physical layer and grade of fibre; no row where the grade is not specified for it."""
    return {
        (row.text("phy"), row.text("grade")): FibreReach(
            phy=row.text("phy"),
            grade=row.text("grade"),
            window_nm=row.whole("window_nm"),
            reach_m=row.number("reach_m"),
            possible_m=row.number("possible_m"),
            loss_db=row.optional_number("loss_db"),
            possible_loss_db=row.optional_number("possible_loss_db"),
            source=row.citation(),
            loss_source=row.optional_citation("loss_source"),
        )
        for row in table("fibre_reach.csv")
    }


@cache
def fibre_attenuation() -> Mapping[tuple[str, int], FibreAttenuation]:
    """Loss by length, by grade of fibre and wavelength [nm]."""
    return {
        (row.text("grade"), row.whole("window_nm")): FibreAttenuation(
            grade=row.text("grade"),
            window_nm=row.whole("window_nm"),
            worst_db_per_km=row.number("worst_db_per_km"),
            source=row.citation(),
            typical_db_per_km=row.optional_number("typical_db_per_km"),
            typical_source=row.optional_citation("typical_source"),
            other_db_per_km=row.optional_number("other_db_per_km"),
            other_source=row.optional_citation("other_source"),
        )
        for row in table("fibre_attenuation.csv")
    }


@cache
def joints() -> Mapping[str, JointLoss]:
    """Loss of a `pair` of mated connectors and of a `splice`."""
    return {
        row.text("joint"): JointLoss(
            joint=row.text("joint"),
            worst_db=row.number("worst_db"),
            source=row.citation(),
            typical_db=row.number("typical_db"),
            typical_source=row.citation("typical_source"),
        )
        for row in table("joints.csv")
    }


@cache
def twinax_reach() -> Mapping[tuple[int, str], TwinaxReach]:
    """Length of made-up cables by rate [bit/s] and kind: twinax, active-twinax, active-optical."""
    return {
        (row.whole("rate_bit_per_s"), row.text("kind")): TwinaxReach(
            rate_bit_per_s=row.whole("rate_bit_per_s"),
            kind=row.text("kind"),
            phy=row.optional_text("phy"),
            reach_m=row.optional_number("reach_m"),
            source=row.citation(),
        )
        for row in table("twinax_reach.csv")
    }


@cache
def host_buses() -> Mapping[tuple[str, int], HostBus]:
    """Host buses by kind and generation; USB by its signalling rate [bit/s]."""
    buses = (
        HostBus(
            kind=row.text("kind"),
            generation=row.optional_whole("generation"),
            signal_bit_per_s=row.whole("signal_bit_per_s"),
            data_share=_data_share(row),
            practical_bit_per_s=row.optional_whole("practical_bit_per_s"),
            source=row.citation(),
        )
        for row in table("host_buses.csv")
    )
    return {(bus.kind, bus.signal_bit_per_s if bus.generation is None else bus.generation): bus for bus in buses}


def _data_share(row: Row) -> Fraction | None:
    if row.optional_text("data_bits") is None:
        return None
    return Fraction(row.whole("data_bits"), row.whole("line_bits")) * Fraction(
        row.whole("payload_octets"), row.whole("packet_octets")
    )


def _screens(row: Row) -> tuple[bool, ...]:
    return {"yes": (True,), "no": (False,), "any": (False, True)}[row.text("screened")]
