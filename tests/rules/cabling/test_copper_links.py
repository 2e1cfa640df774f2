"""What the rules about copper share: how limits stand when a fact is unknown, and the words for a run."""

from __future__ import annotations

import pytest
from runs import cord, run_plan, solid
from wiring import jack

from netaudit.calculations.copper_run import TOLERANCE_M
from netaudit.model.plan import Plan, Port
from netaudit.rules.cabling import copper_links
from netaudit.rules.cabling.copper_links import CopperLink, State
from netaudit.rules.facts import build_facts


def link_of(plan: Plan) -> CopperLink:
    (found,) = copper_links.copper_links(build_facts(plan))
    return found


@pytest.mark.parametrize(
    ("states", "state"),
    [
        ((), "kept"),
        (("kept", "kept"), "kept"),
        (("broken", "broken"), "broken"),
        (("open",), "open"),
        (("kept", "broken"), "open"),
        (("broken", "open"), "open"),
    ],
)
def test_a_limit_is_kept_or_broken_only_where_it_is_whatever_is_meant(states: tuple[State, ...], state: State) -> None:
    assert state == copper_links.together(states)


def test_the_rates_of_a_link_are_the_agreed_one_or_all_that_it_may_agree_on() -> None:
    ten, one = 10_000_000_000, 1_000_000_000
    assert (ten,) == link_of(run_plan(solid("W01", 1), far=jack(10, 1))).rates
    assert (ten, one) == link_of(run_plan(solid("W01", 1), gbit=None, far=jack(10, 1))).rates
    blank = Port(connector="rj45")
    assert 40_000_000_000 == link_of(run_plan(solid("W01", 1), gbit=None, far=blank)).rates[0]


def test_cords_and_solid_cables_are_told_apart_the_longest_first_and_unknown_lengths_last() -> None:
    parts = cord("C01", 2), solid("W01", 10), solid("W02", None), solid("W03", 30), cord("C02", 3)
    link = link_of(run_plan(*parts))
    assert ["C02", "C01"] == [cable.name for cable in link.cords]
    assert ["W03", "W01", "W02"] == [cable.name for cable in link.solids]


def test_a_cable_of_unknown_length_comes_after_the_shortest_known_one() -> None:
    link = link_of(run_plan(solid("W01", None), solid("W02", 0.05)))
    assert ["W02", "W01"] == [cable.name for cable in link.solids]


def test_a_run_is_beyond_a_length_by_more_than_rounding() -> None:
    run = link_of(run_plan(solid("W01", 37 + TOLERANCE_M))).run
    assert not copper_links.beyond(run, 37)
    assert copper_links.beyond(run, 37 - TOLERANCE_M)


def test_ports_without_a_common_rate_and_other_media_are_no_links_over_copper() -> None:
    assert [] == list(copper_links.copper_links(build_facts(run_plan(solid("W01", 1), far=jack(1)))))
    assert [] == list(copper_links.copper_links(build_facts(run_plan(solid("F01", 1, "OM4")))))


def test_a_run_is_told_by_its_screen_and_category_as_far_as_they_are_known() -> None:
    assert "screened category 6A" == copper_links.kind_of(link_of(run_plan(solid("W01", 12, screened=True))).run)
    assert "unknown category" == copper_links.kind_of(link_of(run_plan(solid("W01", 12, "unknown"))).run)


def test_what_is_replaced_is_every_part_below_the_category_that_is_enough_and_every_unread_one() -> None:
    parts = cord("C01", 3, category="6A"), solid("W01", 80, "6"), cord("C02", 3, category="unknown")
    plan = run_plan(*parts, joint=Port(connector="rj45", category="5e"))
    facts, link = build_facts(plan), link_of(plan)
    row = max(link.rows, key=lambda row: row.assured_m or 0)
    step = copper_links.shorter_or_better(link, row, facts)
    assert "replace W01, panel/1, panel/2 and C02 by category 6A, good to 100 m." in step


def test_where_no_category_is_enough_another_medium_is() -> None:
    plan = run_plan(solid("W01", 120))
    link = link_of(plan)
    assert (
        "Shorten it to 100 m, or put a switch on the way, or lay fibre or another medium made for the distance."
        == copper_links.shorter_or_better(link, link.rows[0], build_facts(plan))
    )
