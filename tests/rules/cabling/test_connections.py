"""Joints: four in a channel, two at the rates of category 8."""

from __future__ import annotations

import pytest
from rooms import places
from runs import cord, only, only_gap, run_report, silent, solid
from wiring import jack

from netaudit.model.plan import Cable
from netaudit.rules.cabling.connections import TOO_MANY_CONNECTIONS
from netaudit.standards.copper import most_connections
from netaudit.standards.phys import phys

RULE = "too-many-connections"
RATES = [phy.rate_bit_per_s for phy in phys().values() if phy.medium == "copper"]


def joined(places: int, category: str = "8.1") -> list[Cable]:
    """A run of 2 m pieces with so many joints."""
    return [solid(f"W{number}", 2, category) for number in range(places + 1)]


@pytest.mark.parametrize("rate", RATES)
def test_each_rate_bears_its_number_of_joints_and_not_one_more(rate: int) -> None:
    most = most_connections(rate)
    assert silent(run_report(*joined(most.count), gbit=rate / 1e9), RULE)
    finding = only(run_report(*joined(most.count + 1), gbit=rate / 1e9), RULE)
    assert ("fail", most.source) == (finding.severity, finding.source)
    assert ((most.count + 1, ""), (most.count, "")) == (finding.measured, finding.limit)


@pytest.mark.parametrize(("rate_gbit", "most"), [(0.1, 4), (1, 4), (2.5, 4), (5, 4), (10, 4), (25, 2), (40, 2)])
def test_a_channel_has_four_joints_and_one_of_30_m_two(rate_gbit: float, most: int) -> None:
    """Category 8 Questions Answered, cablinginstall.com (October 2015); ANSI/TIA-568-C.2-1, the same, volume 24 issue 8."""
    assert silent(run_report(*joined(most), gbit=rate_gbit), RULE)
    assert only(run_report(*joined(most + 1), gbit=rate_gbit), RULE)


def test_the_shortest_piece_between_two_joints_is_named_first_and_the_joints_last() -> None:
    parts = cord("C01", 1), solid("W01", 20), cord("P01", 2), solid("W02", 5), cord("P02", 3), cord("C02", 1)
    finding = only(run_report(*parts), RULE)
    cables, joints = places(finding)[:6], places(finding)[6:]
    assert ["cable P01", "cable P02", "cable W02", "cable W01", "cable C01", "cable C02"] == cables
    assert [f"port panel/{number}" for number in range(1, 6)] == joints
    assert (
        "C01 + W01 + P01 + W02 + P02 + C02: joined at 5 places (panel/1, panel/2, panel/3, panel/4 and panel/5), "
        "where 10 Gb/s (1250 MB/s) bears 4" == finding.message
    )
    assert (
        "Lead one cable past at least 1 of panel/1, panel/2, panel/3, panel/4 and panel/5: without P01 two joints fewer "
        "are on the way." == finding.remedy
    )


def test_unknown_rates_are_open_where_only_some_of_them_bear_so_many_joints() -> None:
    assert silent(run_report(*joined(4), gbit=None), RULE)
    gap = only_gap(run_report(*joined(3), gbit=None, far=jack(25, 10)), RULE)
    assert "write down `rates` of cut-1/wire" in gap.decides
    finding = only(run_report(*joined(5), gbit=None, far=jack(25, 10)), RULE)
    assert "where 10 Gb/s (1250 MB/s) bears 4" in finding.message


def test_unknown_lengths_and_categories_change_nothing_about_joints() -> None:
    parts = [piece._replace(length_m=None, category="unknown") for piece in joined(5)]
    assert only(run_report(*parts), RULE)
    assert silent(run_report(*parts[:5]), RULE)


def test_a_rate_that_no_twisted_pair_carries_is_left_to_the_rule_on_categories() -> None:
    assert silent(run_report(*joined(5), gbit=50), RULE)


def test_every_source_of_the_table_is_named() -> None:
    assert {most_connections(rate).source for rate in RATES} == set(TOO_MANY_CONNECTIONS.sources())
