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
