"""The steps that rules advise."""

from __future__ import annotations

import pytest
from rooms import plan_of, room

from netaudit.model.place import PortRef
from netaudit.rules import remedies
from netaudit.rules.facts import Facts, build_facts


def facts_of(text: str) -> Facts:
    return build_facts(plan_of(text))


def run_of(facts: Facts):  # type: ignore[no-untyped-def]
    return facts.link_between[frozenset((PortRef("cut-1", "wire"), PortRef("core", "1")))]


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        (room(wall="5e"), "W01 is category 5e"),
        (room(wall="5e", cord="5e"), "C01, W01 and P01 are category 5e"),
        (room(joint=", category: 5e"), "plate/1 is category 5e"),
        (room(walls=", material: aluminium-clad"), "W01 is copper-clad aluminium, which no standard allows"),
        (room("40 m", wall="6"), "C01, W01 and P01 are 44 m of unscreened category 6, over which that rate is promised to 37 m"),
        (room("120 m"), "C01, W01 and P01 are 124 m of unscreened category 6A"),
        (room("85 m", top="regime: tia").replace("length: 3 m,", "length: 11 m,"), "C01, W01 and P01 are 97 m of unscreened category 6A, with its cords worth 103 m of solid cable, 102 m at the most"),
        (room("84 m", top="ambient: 40 °C"), "84 m of solid cable in air of 40 °C may be 82.8 m at the most"),
    ],
)  # fmt: skip
def test_what_holds_a_run_back_is_told_by_its_part(text: str, reason: str) -> None:
    facts = facts_of(text)

    assert reason == remedies.held_back_by(run_of(facts), facts.plan)


def test_what_a_run_is_promised_as_it_is_closes_a_remedy() -> None:
    assert "As it is, 2.5 Gb/s (312 MB/s) is promised." == remedies.as_it_is(run_of(facts_of(room(wall="5e"))))
    assert "As it is, no rate is promised." == remedies.as_it_is(run_of(facts_of(room("120 m"))))
    assert "What it is promised as it is stays open." == remedies.as_it_is(run_of(facts_of(room(None))))


def test_the_category_that_is_enough_is_told_with_the_one_that_reaches_farther() -> None:
    run = run_of(facts_of(room("20 m", wall="5e"))).copper

    assert "category 6A, good to 100 m (6 is enough up to 37 m)" == remedies.good_categories(run, 10_000_000_000)
    assert "category 5e, good to 100 m" == remedies.good_categories(run, 1_000_000_000)


@pytest.mark.parametrize(
    ("text", "step"),
    [
        # ISO/IEC 11801, 105 m (Adriaenssens, March 2004): (105 - 80) / 1.5; 568-B.1 6.4.1.4: 22 / 1.5 and 22 / 1.2
        (room("80 m").replace("length: 3 m", "length: 18 m"), "Shorten C01 and P01 to 16.6 m in all, or lay solid cable instead."),
        (room("80 m", top="regime: tia").replace("length: 3 m, cord: 26", "length: 18 m, cord: 28"), "Shorten C01 and P01 to 11.2 m in all, use cords of 24 AWG, good to 18.3 m in all, or lay solid cable instead."),
        (room("80 m", top="regime: tia").replace("length: 3 m", "length: 18 m"), "Shorten C01 and P01 to 14.6 m in all, use cords of 24 AWG, good to 18.3 m in all, or lay solid cable instead."),
    ],
)  # fmt: skip
def test_cords_that_lose_too_much_are_cured_by_what_is_left_for_them(text: str, step: str) -> None:
    facts = facts_of(text)

    assert step == remedies.better_cabling(run_of(facts), facts.plan)


@pytest.mark.parametrize(
    ("value", "rounded"), [(11.333, 11.3), (11.39, 11.3), (11.3, 11.3), (0.3 - 1e-9, 0.3), (12, 12)]
)
def test_a_number_is_rounded_down_to_a_tenth(value: float, rounded: float) -> None:
    assert rounded == remedies.rounded_down(value)


@pytest.mark.parametrize(
    ("text", "step"),
    [
        (room(wall="5e"), "Replace W01 by category 6A, good to 100 m."),
        (room(joint=", category: 5e"), "Replace plate/1 by category 6A, good to 100 m."),
        (room(walls=", material: aluminium-clad"), "Replace W01 by solid copper."),
        (room("84 m", top="ambient: 40 °C"), "Shorten the solid cable among C01, W01 and P01, or keep it cooler."),
        (room("120 m"), "Make C01, W01 and P01 shorter, or use a medium made for that distance."),
    ],
)  # fmt: skip
def test_a_run_is_cured_where_it_is_weak(text: str, step: str) -> None:
    facts = facts_of(text)

    assert step == remedies.better_cabling(run_of(facts), facts.plan)


def test_a_cable_of_unknown_category_between_ports_that_share_no_plug_is_told_by_the_ports() -> None:
    text = room(switch="up to 10G").replace("1-8: {connector: rj45", "1-8: {connector: lc").replace(
        "P01: {from: panel/1, to: core/1, category: 6A", "P01: {from: panel/1, to: core/1, category: unknown"
    ).replace("to: plate/1, category: 6A", "to: plate/1, category: unknown").replace(
        "to: panel/1, category: 6A", "to: panel/1, category: unknown"
    )  # fmt: skip
    facts = facts_of(text)

    assert "no plug fits both cut-1/wire and core/1" == remedies.held_back_by(run_of(facts), facts.plan)
