"""Cords that use up the loss, and warm air that does."""

from __future__ import annotations

from math import floor

import pytest
from rooms import places
from runs import cord, only, only_gap, run_report, silent, solid
from wiring import jack

from netaudit.model.plan import COPPER_CATEGORIES, Regime
from netaudit.rules.cabling.copper_loss import CORDS_TOO_LONG, TOO_WARM_FOR_LENGTH
from netaudit.standards.copper import cord_rule, warm_rule

CORDS = "cords-too-long"
WARMTH = "too-warm-for-length"
BUDGETS = [(regime, rate, figure) for regime in ("iso", "tia") for rate, figure in cord_rule(regime).budgets.items()]
GAUGES = [(regime, gauge) for regime in ("iso", "tia") for gauge in cord_rule(regime).factors]


def category_of(rate_bit_per_s: int) -> str:
    return "8.1" if rate_bit_per_s > 10_000_000_000 else "7A"


# Cords


@pytest.mark.parametrize(("regime", "rate", "figure"), BUDGETS)
def test_each_budget_is_kept_to_the_centimetre_and_broken_one_further(regime: Regime, rate: int, figure) -> None:  # type: ignore[no-untyped-def]
    """A cord of 24 AWG as long as half of the budget bears, and solid cable for the rest."""
    factor = cord_rule(regime).factors[24].value
    solid_m = figure.value / 2
    cord_m = (figure.value - solid_m) / factor
    category, gbit = category_of(rate), rate / 1e9
    kept = run_report(cord("C01", cord_m, 24, category), solid("W01", solid_m, category), gbit=gbit, regime=regime)
    assert silent(kept, CORDS)
    parts = cord("C01", cord_m + 0.01, 24, category), solid("W01", solid_m, category)
    finding = only(run_report(*parts, gbit=gbit, regime=regime), CORDS)
    assert ("fail", figure.source) == (finding.severity, finding.source)
    assert finding.measured == (pytest.approx(cord_m + 0.01), "m")
    assert finding.limit == (pytest.approx(cord_m), "m")


@pytest.mark.parametrize(("regime", "gauge"), GAUGES)
def test_each_gauge_is_kept_to_the_centimetre_and_broken_one_further(regime: Regime, gauge: int) -> None:
    factor = cord_rule(regime).factors[gauge]
    cord_m = (cord_rule(regime).budgets[10**10].value - 70) / factor.value
    assert silent(run_report(cord("C01", cord_m, gauge), solid("W01", 70), regime=regime), CORDS)
    finding = only(run_report(cord("C01", cord_m + 0.01, gauge), solid("W01", 70), regime=regime), CORDS)
    assert finding.limit == (pytest.approx(cord_m), "m")
    assert ("fail" if factor.source.may_fail else "warn") == finding.severity


@pytest.mark.parametrize(
    ("solid_m", "gauge", "cords_m"),
    [
        # ANSI/TIA/EIA-568-B.1 clause 6.4.1.4, C = (102 - H) / (1 + D), D 0.2 for 24 AWG and 0.5 for 26 AWG, as given by
        # cabling-design.com/helpdesk/answers/1225.shtml; D 0.95 for 28 AWG follows from the example of ANSI/TIA-568.2-D
        # in cablinginstall.com/standards/article/16482353: 10 m of cord with 82.5 m
        (90, 24, 10.00), (90, 26, 8.00), (90, 28, 6.15),
        (85, 24, 14.17), (85, 26, 11.33), (85, 28, 8.72),
        (82.5, 24, 16.25), (82.5, 26, 13.00), (82.5, 28, 10.00),
        (80, 24, 18.33), (80, 26, 14.67), (80, 28, 11.28),
        (75, 24, 22.50), (75, 26, 18.00), (75, 28, 13.85),
        (70, 24, 26.67), (70, 26, 21.33), (70, 28, 16.41),
    ],
)  # fmt: skip
def test_the_cord_table_of_tia_is_kept_in_every_row(solid_m: float, gauge: int, cords_m: float) -> None:
    """The lengths are given to the centimetre, so that one centimetre less is good and one more is not."""
    good_m, bad_m = floor(cords_m * 100 - 0.5) / 100, cords_m + 0.01
    assert silent(run_report(cord("C01", good_m, gauge), solid("W01", solid_m), regime="tia"), CORDS)
    report = run_report(cord("C01", bad_m, gauge), solid("W01", solid_m), regime="tia")
    told = {finding.rule for finding in report.findings}
    assert ("channel-too-long" if bad_m + solid_m > 100 else CORDS) in told


def test_85_m_with_12_m_of_26_awg_are_struck_by_tia_alone() -> None:
    """568-B.1 clause 6.4.1.4: 11.33 m; ISO/IEC 11801 with cords at 1.5 (Adriaenssens, March 2004): 103 m of 105 m."""
    parts = cord("C01", 8), solid("W01", 85), cord("P01", 4)
    assert silent(run_report(*parts, regime="iso"), CORDS)
    finding = only(run_report(*parts, regime="tia"), CORDS)
    assert ["cable C01", "cable P01", "cable W01"] == places(finding)
    assert (12.0, "m") == finding.measured
    assert finding.limit == (pytest.approx(11.333, abs=0.001), "m")
    assert (
        "C01 and P01 are 12 m of cord beside 85 m of solid cable, where 10 Gb/s (1250 MB/s) bears 11.33 m at the most, "
        "since each metre of cord loses as much as 1.5 m solid" == finding.message
    )
    assert (
        "Shorten C01 and P01 to 11.3 m in all, use cords of 24 AWG, good to 14.1 m in all, or lay solid cable instead. "
        "As it is, no rate is promised." == finding.remedy
    )


def test_cords_of_several_gauges_are_told_in_solid_cable() -> None:
    """568-B.1 clause 6.4.1.4: 85 + 1.5 x 8 + 1.2 x 5 = 103 m of 102 m."""
    finding = only(run_report(cord("C01", 8), solid("W01", 85), cord("P01", 5, 24), regime="tia"), CORDS)
    assert finding.measured == (pytest.approx(103.0), "m")
    assert finding.limit == (102.0, "m")
    assert (
        "C01 + W01 + P01: 98 m with C01 and P01 as cords lose as much as 103 m solid, where 10 Gb/s (1250 MB/s) bears "
        "102 m" == finding.message
    )


def test_under_iso_a_metre_of_any_cord_loses_alike_and_no_gauge_is_a_remedy() -> None:
    finding = only(run_report(cord("C01", 10, 28), solid("W01", 80), cord("P01", 8, 24), regime="iso"), CORDS)
    assert ((18.0, "m"), (pytest.approx(16.667, abs=0.001), "m")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith("Shorten C01 and P01 to 16.6 m in all, or lay solid cable instead.")


@pytest.mark.parametrize(
    ("regime", "gauge", "longest_m"), [("iso", 26, 70.0), ("tia", 24, 85.0), ("tia", 26, 68.0), ("tia", 28, 52.3)]
)
def test_a_lone_ready_made_cord_is_judged_by_the_same_loss(regime: Regime, gauge: int, longest_m: float) -> None:
    """105 / 1.5, 102 / 1.2, 102 / 1.5 and 102 / 1.95."""
    assert silent(run_report(cord("C01", longest_m, gauge), regime=regime), CORDS)
    finding = only(run_report(cord("C01", longest_m + 0.1, gauge), regime=regime), CORDS)
    assert "of cord and nothing else, where" in finding.message
    assert "in all" not in finding.remedy


def test_a_thicker_cord_is_advised_only_where_it_would_lose_less() -> None:
    assert "24 AWG" not in only(run_report(cord("C01", 86, 24), regime="tia"), CORDS).remedy
    assert "use cords of 24 AWG, good to 85 m, or" in only(run_report(cord("C01", 86, 26), regime="tia"), CORDS).remedy


def test_a_loss_that_is_only_remembered_warns_and_one_that_is_broken_without_it_fails() -> None:
    warned = only(run_report(cord("C01", 20, 22), solid("W01", 79), regime="tia"), CORDS)
    assert ("warn", "memory") == (warned.severity, warned.source.standing)
    failed = only(run_report(cord("C01", 12), solid("W01", 85), cord("P01", 0.5, 22), regime="tia"), CORDS)
    assert ("fail", "secondary") == (failed.severity, failed.source.standing)


def test_solid_cable_alone_never_has_cords_too_long() -> None:
    assert silent(run_report(solid("W01", 100)), CORDS)


def test_where_plain_length_is_too_much_the_cords_are_not_told_as_well() -> None:
    report = run_report(cord("C01", 30), solid("W01", 71))
    assert silent(report, CORDS)
    assert "channel-too-long" in {finding.rule for finding in report.findings}


def test_a_category_too_low_for_the_rate_is_judged_at_the_rate_that_it_carries() -> None:
    """10 Gb/s is not specified over 5e; the next rate that is has the same budget of 105 m."""
    finding = only(run_report(cord("C01", 20, category="5e"), solid("W01", 80, "5e")), CORDS)
    assert "5 Gb/s (625 MB/s) bears 16.67 m" in finding.message


def test_a_gauge_that_is_not_given_leaves_it_open_between_the_best_and_the_worst() -> None:
    """(102 - 90) / 1.95 = 6.15 m and (102 - 85) / 1.2 = 14.17 m."""
    assert silent(run_report(cord("C01", 6.1, None), solid("W01", 90), regime="tia"), CORDS)
    gap = only_gap(run_report(cord("C01", 6.2, None), solid("W01", 90), regime="tia"), CORDS)
    assert ("cable C01", "read the gauge printed on C01: 24 AWG is best") == (str(gap.where[0]), gap.decides)
    gap = only_gap(run_report(cord("C01", 14.1, None), solid("W01", 85), regime="tia"), CORDS)
    assert "The gauge of C01 is not given" in gap.reason
    finding = only(run_report(cord("C01", 14.2, None), solid("W01", 85), regime="tia"), CORDS)
    assert finding.limit == (pytest.approx(14.167, abs=0.001), "m")


def test_a_gauge_is_the_gap_even_where_plain_length_is_promised_nothing() -> None:
    gap = only_gap(run_report(cord("C01", 54, None, "6"), regime="tia"), CORDS)
    assert "The gauge of C01 is not given" in gap.reason


def test_an_unknown_length_leaves_it_open_unless_the_cords_already_lose_too_much() -> None:
    gap = only_gap(run_report(cord("C01", 30), solid("W01", None)), CORDS)
    assert "measure W01: up to 60 m is good" == gap.decides
    finding = only(run_report(cord("C01", 71), solid("W01", None)), CORDS)
    assert (71.0, "m") == finding.measured


def test_an_unknown_length_among_cords_counts_with_their_loss() -> None:
    """(105 - 90) / 1.5 = 10 m, and (102 - 90) / 1.5 = 8 m."""
    assert "measure C01: up to 10 m is good" == only_gap(run_report(cord("C01", None), solid("W01", 90)), CORDS).decides
    gap = only_gap(run_report(cord("C01", None), solid("W01", 90), regime="tia"), CORDS)
    assert "measure C01: up to 8 m is good" == gap.decides


def test_unknown_rates_are_open_where_the_budget_of_one_of_them_is_broken() -> None:
    parts = cord("C01", 25, category="8.1"), solid("W01", 4, "8.1")
    assert silent(run_report(*parts, gbit=None), CORDS)
    gap = only_gap(run_report(*parts, gbit=None, far=jack(25, 10)), CORDS)
    assert "write down `rates` of cut-1/wire" in gap.decides


# Warm air

LINES = [
    (regime, screened, line)
    for regime in ("iso", "tia")
    for screened in (False, True)
    for line in warm_rule(regime, screened).lines
]


@pytest.mark.parametrize(("regime", "screened", "line"), LINES)
def test_each_line_is_kept_to_the_centimetre_and_broken_one_further(regime: Regime, screened: bool, line) -> None:  # type: ignore[no-untyped-def]
    source = warm_rule(regime, screened).source
    for air_c in ((line.from_c + line.to_c) / 2, line.to_c):
        allowed_m = line.fixed_at_from_m - line.shorter_m_per_c * (air_c - line.from_c)
        fields = {"screened": screened, "ambient_c": air_c}
        assert silent(run_report(solid("W01", allowed_m, **fields), regime=regime), WARMTH)
        finding = only(run_report(solid("W01", allowed_m + 0.01, **fields), regime=regime), WARMTH)
        assert (source, "fail" if source.may_fail else "warn") == (finding.source, finding.severity)
        assert finding.measured == (pytest.approx(allowed_m + 0.01), "m")
        assert finding.limit == (pytest.approx(allowed_m), "m")


@pytest.mark.parametrize(
    ("screened", "lengths_m"),
    [
        # ISO/IEC 11801 edition 2.2 as printed by tsuko.co.jp/lan_sekkei06.html, 25 °C to 60 °C in steps of 5
        (False, [88.2, 86.4, 84.6, 82.8, 80.1, 77.4, 74.7, 72.0]),
        (True, [89.1, 88.2, 87.3, 86.4, 85.5, 84.6, 83.7, 82.8]),
    ],
)
def test_the_printed_table_of_iso_is_kept_in_every_column(screened: bool, lengths_m: list[float]) -> None:
    for air_c, length_m in zip(range(25, 61, 5), lengths_m, strict=True):
        fields = {"screened": screened, "ambient_c": float(air_c)}
        assert silent(run_report(solid("W01", length_m, **fields)), WARMTH)
        assert only(run_report(solid("W01", length_m + 0.1, **fields)), WARMTH)


@pytest.mark.parametrize(("air_c", "length_m"), [(40.0, 84.0), (50.0, 79.5)])
def test_the_lengths_of_tia_that_are_published_are_kept(air_c: float, length_m: float) -> None:
    """ANSI/TIA-568-B.2-1 annex G, as given by connectionsplus.ca/features/high-temps-and-cable."""
    assert silent(run_report(solid("W01", length_m, ambient_c=air_c), regime="tia"), WARMTH)
    assert only(run_report(solid("W01", length_m + 0.01, ambient_c=air_c), regime="tia"), WARMTH)


def test_84_m_at_40_degrees_are_struck_by_iso_with_place_sentence_and_step() -> None:
    """The same two documents: 82.8 m and 84.0 m; 90 x (1 - 0.004 x 16.67) = 84 m at 36.67 °C."""
    parts = cord("C01", 3), solid("W01", 84, ambient_c=40.0)
    assert silent(run_report(*parts, regime="tia"), WARMTH)
    finding = only(run_report(*parts, regime="iso"), WARMTH)
    assert ["cable W01", "cable C01"] == places(finding)
    assert (84.0, "m") == finding.measured
    assert finding.limit == (pytest.approx(82.8), "m")
    assert "W01 is 84 m of solid cable in air of 40 °C, where 82.8 m is the most" == finding.message
    assert (
        "Keep the air along W01 at 36.6 °C or cooler, where that length is good, or shorten the solid cable to 82.8 m."
        == finding.remedy
    )


def test_the_temperature_that_the_remedy_names_is_good() -> None:
    for length_m in (91.0, 89.0, 83.0, 82.8, 81.0, 75.0, 72.5):
        remedy = only(run_report(solid("W01", length_m, ambient_c=60.0)), WARMTH).remedy
        good_c = float(remedy.removeprefix("Keep the air along W01 at ").split(" ")[0])
        assert silent(run_report(solid("W01", length_m, ambient_c=good_c)), WARMTH)
        assert only(run_report(solid("W01", length_m, ambient_c=good_c + 0.2)), WARMTH)


def test_the_warmest_solid_cable_decides_and_cords_take_the_heat_unseen() -> None:
    parts = cord("C01", 3, ambient_c=60.0), solid("W01", 50), solid("W02", 39, ambient_c=30.0)
    finding = only(run_report(*parts), WARMTH)
    assert ["cable W02", "cable W01", "cable C01"] == places(finding)
    assert finding.limit == (pytest.approx(86.4), "m")
    assert "W02 and W01 are 89 m of solid cable in air of 30 °C" in finding.message


def test_the_air_of_the_plan_counts_where_a_cable_has_none_of_its_own() -> None:
    assert only(run_report(solid("W01", 84), ambient_c=40.0), WARMTH)
    assert silent(run_report(solid("W01", 84, ambient_c=30.0), ambient_c=40.0), WARMTH)


@pytest.mark.parametrize("air_c", [-10.0, 20.0])
def test_cool_air_takes_nothing_away_and_leaves_nothing_open(air_c: float) -> None:
    assert silent(run_report(solid("W01", 97), ambient_c=air_c), WARMTH)
    assert silent(run_report(solid("W01", None), ambient_c=air_c), WARMTH)


@pytest.mark.parametrize(
    ("rate_gbit", "regime", "allowed_m"), [(25, "iso", 22.08), (40, "iso", 22.08), (40, "tia", 22.4)]
)
def test_the_solid_cable_of_a_channel_of_30_m_shrinks_in_proportion(
    rate_gbit: int, regime: Regime, allowed_m: float
) -> None:
    """24 m of 30 m (ISO/IEC 11801-1, classes I and II) are to 90 m of 100 m as the warm lengths are to each other."""
    fields = {"category": "8.1", "ambient_c": 40.0}
    assert silent(run_report(solid("W01", allowed_m, **fields), gbit=rate_gbit, regime=regime), WARMTH)
    finding = only(run_report(solid("W01", allowed_m + 0.01, **fields), gbit=rate_gbit, regime=regime), WARMTH)
    assert "at 39.8 °C or cooler" in finding.remedy
    assert silent(run_report(solid("W01", allowed_m + 0.01, **fields), regime=regime), WARMTH)


def test_where_length_or_cords_already_break_it_the_warmth_is_not_told_as_well() -> None:
    assert silent(run_report(solid("W01", 101, ambient_c=60.0)), WARMTH)
    assert silent(run_report(cord("C01", 15), solid("W01", 84, ambient_c=60.0)), WARMTH)
    assert silent(run_report(solid("W01", 101, ambient_c=61.0)), WARMTH)


def test_air_that_no_rule_covers_is_not_checked() -> None:
    gap = only_gap(run_report(solid("W01", 30, ambient_c=60.1)), WARMTH)
    assert "How far W01 can reach in air as warm as that is not firmly known" == gap.reason
    assert "measure the air along W01, or move it somewhere cooler" == gap.decides
    assert "air as warm" in only_gap(run_report(solid("W01", 30, "5e", ambient_c=60.1)), WARMTH).reason


def test_an_unknown_length_in_warm_air_is_open_unless_the_known_part_is_too_long() -> None:
    gap = only_gap(run_report(cord("C01", 3), solid("W01", None), ambient_c=40.0), WARMTH)
    assert "measure W01: up to 82.8 m is good" == gap.decides
    assert only(run_report(cord("C01", None), solid("W01", 83), ambient_c=40.0), WARMTH)


def test_unknown_rates_are_open_where_only_the_short_channel_of_one_is_too_warm() -> None:
    parts = solid("W01", 23, "8.1", ambient_c=40.0)
    assert silent(run_report(parts, gbit=None), WARMTH)
    gap = only_gap(run_report(parts, gbit=None, far=jack(25, 10)), WARMTH)
    assert "write down `rates`" in gap.decides


def test_every_category_up_to_7a_is_judged_alike_in_warm_air() -> None:
    for category in COPPER_CATEGORIES[2:7]:
        assert only(run_report(solid("W01", 83, category, ambient_c=40.0), gbit=1), WARMTH)


def test_every_source_of_the_tables_is_named() -> None:
    factors = [cord_rule(regime).factors[gauge] for regime, gauge in GAUGES]
    assert {figure.source for figure in (*factors, *(figure for _, _, figure in BUDGETS))} == set(
        CORDS_TOO_LONG.sources()
    )
    assert {warm_rule(regime, screened).source for regime, screened, _ in LINES} == set(TOO_WARM_FOR_LENGTH.sources())
