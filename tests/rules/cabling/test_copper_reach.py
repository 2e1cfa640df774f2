"""Lengths that may work and that nothing promises."""

from __future__ import annotations

import pytest
from rooms import gaps, places, report_of, room
from runs import cord, only, only_gap, run_report, silent, solid

from netaudit.model.plan import Port
from netaudit.rules.cabling.copper_reach import REACH_NOT_ASSURED
from netaudit.standards.copper import CopperReach, copper_reach
from netaudit.standards.phys import phys

RULE = "reach-not-assured"
ROWS = sorted(copper_reach().values())
DOUBTFUL = [row for row in ROWS if row.assured_m != row.possible_m]
FIRM = [row for row in ROWS if row.assured_m == row.possible_m]


def gbit(row: CopperReach) -> float:
    return phys()[row.phy].rate_bit_per_s / 1e9


def id_of(row: CopperReach) -> str:
    return f"{row.phy}-{row.category}-{'screened' if row.screened else 'unscreened'}"


@pytest.mark.parametrize("row", DOUBTFUL, ids=id_of)
def test_a_centimetre_past_what_is_assured_is_told_and_so_is_all_that_is_possible(row: CopperReach) -> None:
    for length_m in ((row.assured_m or 0) + 0.01, row.possible_m):
        finding = only(run_report(solid("W01", length_m, row.category, screened=row.screened), gbit=gbit(row)), RULE)
        assert ("warn", row.source) == (finding.severity, finding.source)
        assert (length_m, "m") == finding.measured
        assert (None if row.assured_m is None else (row.assured_m, "m")) == finding.limit


@pytest.mark.parametrize("row", [row for row in DOUBTFUL if row.assured_m], ids=id_of)
def test_what_is_assured_is_good(row: CopperReach) -> None:
    good = run_report(solid("W01", row.assured_m, row.category, screened=row.screened), gbit=gbit(row))
    assert silent(good, RULE)


@pytest.mark.parametrize("row", DOUBTFUL, ids=id_of)
def test_past_what_is_possible_the_run_is_too_long_and_not_merely_unpromised(row: CopperReach) -> None:
    report = run_report(solid("W01", row.possible_m + 0.01, row.category, screened=row.screened), gbit=gbit(row))
    assert silent(report, RULE)
    assert "channel-too-long" in {finding.rule for finding in report.findings}


@pytest.mark.parametrize("row", FIRM, ids=id_of)
def test_where_all_that_is_possible_is_assured_nothing_is_told_at_or_past_it(row: CopperReach) -> None:
    for length_m in (row.possible_m, row.possible_m + 0.01):
        report = run_report(solid("W01", length_m, row.category, screened=row.screened), gbit=gbit(row))
        assert silent(report, RULE)


def test_ten_gigabits_on_unscreened_category_6_are_good_to_37_m_in_a_warm_room() -> None:
    """TIA TSB-155-A (blog.siemon.com/standards/tsb-155-a-guidelines): 37 m should operate, 37 m to 55 m may."""
    parts = cord("C01", 3, category="6"), solid("W01", 33, "6"), cord("C02", 1, category="6")
    assert silent(run_report(*parts, ambient_c=24.0), RULE)


def test_44_m_are_told_with_the_place_the_sentence_and_the_step() -> None:
    """The same document: 37 m and 55 m."""
    finding = only(run_report(cord("C01", 4, category="6"), solid("W01", 40, "6"), gbit=10), RULE)
    assert ["cable W01", "cable C01"] == places(finding)
    assert (
        "C01 + W01: 44 m of unscreened category 6, over which 10 Gb/s (1250 MB/s) is promised to 37 m "
        "and only may run to 55 m" == finding.message
    )
    assert (
        "Shorten it to 37 m, or replace C01 and W01 by category 6A, good to 100 m. As it is, no rate is promised."
        == finding.remedy
    )


def test_a_screened_wall_with_unscreened_cords_counts_as_unscreened_and_the_cords_are_named() -> None:
    cords = cord("C01", 3, category="6"), cord("C02", 2, category="6")
    finding = only(run_report(cords[0], solid("W01", 48, "6", screened=True), cords[1]), RULE)
    assert "53 m of unscreened category 6 (counted as unscreened, since C01 and C02 are)" in finding.message
    assert finding.remedy.startswith(
        "Replace C01 and C02 by screened parts: screened all through, it is promised to 55 m. Shorten it to 37 m, or"
    )


def test_screened_all_through_the_same_run_is_good() -> None:
    cords = cord("C01", 3, category="6", screened=True), cord("C02", 2, category="6", screened=True)
    assert silent(run_report(cords[0], solid("W01", 48, "6", screened=True), cords[1]), RULE)


def test_an_outlet_without_a_screen_spoils_that_of_the_cables() -> None:
    parts = cord("C01", 3, category="6", screened=True), solid("W01", 48, "6", screened=True)
    finding = only(run_report(*parts, joint=Port(connector="rj45", screened=False)), RULE)
    assert "since panel/1 is)" in finding.message
    assert silent(run_report(*parts, joint=Port(connector="rj45", screened=True)), RULE)


def test_a_screen_all_through_is_no_step_where_it_would_not_be_enough() -> None:
    """Unscreened 5e is promised 5 Gb/s at no length, and screened 5e neither (IEEE 802.3bz objectives)."""
    parts = cord("C01", 3, category="5e"), solid("W01", 20, "5e", screened=True)
    remedy = only(run_report(*parts, gbit=5), RULE).remedy
    assert remedy.startswith("Replace C01 and W01 by category 6, good to 100 m.")
    assert "screened all through" not in remedy


def test_an_unscreened_run_is_not_asked_to_be_screened() -> None:
    assert "screened parts" not in only(run_report(solid("W01", 50, "6")), RULE).remedy


@pytest.mark.parametrize(("rate_gbit", "category", "better"), [(5, "5e", "6"), (1, "5", "5e")])
def test_what_is_promised_at_no_length_is_not_cured_by_shortening(rate_gbit: float, category: str, better: str) -> None:
    """IEEE 802.3bz objectives: 5G over 5e in defined cases only; 1000BASE-T on category 5 where TSB-95 is met."""
    finding = only(run_report(solid("W01", 2, category), gbit=rate_gbit), RULE)
    assert "over which nothing promises" in finding.message
    assert "though it may run to 100 m" in finding.message
    assert finding.remedy.startswith(f"Replace W01 by category {better}, good to 100 m. As it is, ")


def test_no_category_too_low_is_told_as_a_long_reach() -> None:
    """intelek.eu: 10GBASE-T is not possible on category 5e."""
    report = run_report(solid("W01", 20, "5e"))
    assert silent(report, RULE)
    assert "category-too-low" in {finding.rule for finding in report.findings}


# Unknown facts


def test_a_known_part_past_what_is_assured_decides_whatever_the_unknown_length_is() -> None:
    finding = only(run_report(cord("C01", None, category="6"), solid("W01", 38, "6")), RULE)
    assert "at least 38 m" in finding.message
    assert (38, "m") == finding.measured


def test_an_unknown_length_that_may_go_past_it_is_not_checked() -> None:
    gap = only_gap(run_report(cord("C01", None, category="6"), solid("W01", 37, "6")), RULE)
    assert ("cable C01", "measure C01") == (str(gap.where[0]), gap.decides)
    gap = only_gap(run_report(cord("C01", 3, category="6"), solid("W01", None, "6")), RULE)
    assert "measure W01: up to 34 m is good" == gap.decides


def test_an_unknown_category_is_open_only_where_one_that_it_may_be_is_doubtful() -> None:
    assert silent(run_report(solid("W01", 37, "unknown")), RULE)
    gap = only_gap(run_report(solid("W01", 44, "unknown")), RULE)
    assert gap.decides.startswith("read the jacket of W01")


def test_an_unread_cord_beside_a_doubtful_wall_is_open_since_it_may_be_too_low_for_the_rate() -> None:
    report = run_report(cord("C01", 4, category="unknown"), solid("W01", 40, "6"))
    gap = only_gap(report, RULE)
    assert gap.decides.startswith("read the jacket of C01")


def test_unknown_rates_leave_it_open_where_one_of_them_is_doubtful() -> None:
    assert "write down `rates` of cut-1/wire" in only_gap(run_report(solid("W01", 44, "6"), gbit=None), RULE).decides
    assert silent(run_report(solid("W01", 44, "6A"), gbit=None), RULE)


def test_every_source_of_the_table_is_named() -> None:
    assert {row.source for row in ROWS} == set(REACH_NOT_ASSURED.sources())


def test_where_all_that_is_possible_is_assured_no_length_is_asked_for() -> None:
    """ANSI/TIA-568: 1000BASE-T is promised to 100 m of category 5e and works no further."""
    slow = report_of(room(None, wall="5e", cord="5e", rates="up to 1G", switch="up to 1G", seat=""))
    fast = report_of(room(None, wall="6", cord="6"))

    assert [] == gaps(slow, "reach-not-assured")
    assert [] != gaps(slow, "channel-too-long")
    assert [] != gaps(fast, "reach-not-assured")
