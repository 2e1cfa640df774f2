"""What the cords of a run lose and what warm air takes from it.

Vectors: ANSI/TIA/EIA-568-B.1 6.4.1.4, C = (102 - H) / (1 + D) with D 0.2 for 24 AWG and 0.5 for 26 AWG, as given by
cabling-design.com/helpdesk/answers/1225.shtml; ISO/IEC 11801 with cords at 1.5, Adriaenssens, A closer look at channel
insertion loss (IEEE 802.3an task force, March 2004); ISO/IEC 11801 edition 2.2, temperature, as given by
tsuko.co.jp/lan_sekkei06.html; ANSI/TIA-568-B.2-1 annex G, as given by
connectionsplus.ca/features/high-temps-and-cable.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from wiring import G

from netaudit.calculations.copper_run import (
    TOLERANCE_M,
    CopperRun,
    Cord,
    loss_bounds_m,
    loss_budget,
    loss_equivalent_m,
    warm_limit,
)
from netaudit.model.plan import Regime
from netaudit.standards.copper import copper_reach

TEN = 10 * G
LONG = copper_reach()["10GBASE-T", "6A", False]
SHORT = copper_reach()["40GBASE-T", "8.1", False]


def run(fixed_m: float = 0.0, *cords: tuple[float, int | None], air_c: float = 20.0) -> CopperRun:
    """A run of unscreened 6A."""
    return CopperRun(
        lowest_category="6A",
        category_known=True,
        screened=False,
        fixed_m=fixed_m,
        cords=tuple(Cord(*cord) for cord in cords),
        length_known=True,
        connections=0,
        ambient_c=air_c,
        clad=False,
    )


def test_a_run_is_as_long_as_its_parts_where_all_are_known() -> None:
    known = run(38.0, (3.0, 26), (1.0, None))
    assert (42.0, 42.0) == (known.least_m, known.length_m)
    unknown = replace(known, length_known=False)
    assert (42.0, None) == (unknown.least_m, unknown.length_m)


@pytest.mark.parametrize(
    ("regime", "bounds_m"), [("iso", (103.0, 103.0)), ("tia", (85 + 8 * 1.5 + 4 * 1.2, 85 + 8 * 1.5 + 4 * 1.95))]
)
def test_cords_are_worth_more_than_their_length_of_solid_cable(regime: Regime, bounds_m: tuple[float, float]) -> None:
    channel = run(85.0, (8.0, 26), (4.0, None))
    assert loss_bounds_m(channel, regime) == pytest.approx(bounds_m)
    assert loss_equivalent_m(channel, "tia") is None
    assert loss_equivalent_m(channel, "iso") == pytest.approx(103.0)
    assert loss_equivalent_m(replace(channel, length_known=False), "iso") is None


@pytest.mark.parametrize(("regime", "gauge", "rate", "solid_m"), [
    ("iso", 24, TEN, 105.0), ("iso", 24, 40 * G, 33.0), ("tia", 24, TEN, 102.0), ("tia", 26, 25 * G, 31.2),
])  # fmt: skip
def test_a_budget_is_broken_past_rounding_and_kept_at_it(regime: Regime, gauge: int, rate: int, solid_m: float) -> None:
    kept = loss_budget(run(solid_m + TOLERANCE_M / 2), rate, regime)
    assert (solid_m, False, False) == (pytest.approx(kept.allowed_m), kept.broken, kept.doubtful)
    broken = loss_budget(run(solid_m - 1.0, (1.0, gauge)), rate, regime)
    assert (True, True) == (broken.broken, broken.doubtful)
    assert broken.source.may_fail


def test_an_unknown_gauge_makes_a_budget_doubtful_before_it_is_broken() -> None:
    """(102 - 90) / 1.95 = 6.15 m, (102 - 90) / 1.2 = 10 m."""
    states = [loss_budget(run(90.0, (cord_m, None)), TEN, "tia") for cord_m in (6.1, 6.2, 10.0, 10.1)]
    assert [False, True, True, True] == [state.doubtful for state in states]
    assert [False, False, False, True] == [state.broken for state in states]


def test_the_source_is_a_remembered_one_only_where_it_takes_it_to_break_the_budget() -> None:
    """84 + 1.2 x 15 = 102 m."""
    cords: dict[str, tuple[tuple[float, int], ...]] = {
        "kept": ((1.0, 22),),
        "broken by it": ((15.0, 24), (0.5, 22)),
        "broken without it": ((15.1, 24), (0.5, 22)),
    }
    standings = {name: loss_budget(run(84.0, *parts), TEN, "tia").source.standing for name, parts in cords.items()}
    assert {"kept": "secondary", "broken by it": "memory", "broken without it": "secondary"} == standings


def test_a_rate_without_a_budget_is_refused() -> None:
    with pytest.raises(KeyError):
        loss_budget(run(1.0), 50 * G, "iso")


@pytest.mark.parametrize(
    ("regime", "row", "air_c", "allowed_m"),
    [
        ("iso", LONG, 40.0, 82.8),
        ("tia", LONG, 40.0, 84.0),
        ("tia", LONG, 50.0, 79.5),
        ("iso", SHORT, 40.0, 82.8 * 24 / 90),
    ],
)
def test_warm_air_allows_what_the_tables_print_and_nothing_past_rounding(
    regime: Regime,
    row,
    air_c: float,
    allowed_m: float,  # type: ignore[no-untyped-def]
) -> None:
    kept = warm_limit(run(allowed_m + TOLERANCE_M / 2, air_c=air_c), row, regime)
    assert (pytest.approx(allowed_m), True, False) == (kept.allowed_m, kept.warm, kept.broken)
    assert warm_limit(run(allowed_m + 3 * TOLERANCE_M, air_c=air_c), row, regime).broken
    assert kept.warmest_c == pytest.approx(air_c, abs=1e-3)


def test_cool_air_breaks_nothing_and_hot_air_is_covered_by_no_rule() -> None:
    cool = warm_limit(run(97.0), LONG, "iso")
    assert (False, False) == (cool.warm, cool.broken)
    hot = warm_limit(run(97.0, air_c=60.1), LONG, "iso")
    assert (None, True, False) == (hot.allowed_m, hot.warm, hot.broken)
