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
    ("text", "decides"),
    [
        (room(None), "measure W01: up to 96 m is good"),
        (room(None, wall="6"), "measure W01: up to 33 m is good"),
        (room(None, rates="[1G]", switch="[1G]"), "measure W01: up to 96 m is good"),
        (room().replace("length: 3 m, ", "").replace("length: 38 m", "length: 98 m"), "measure C01: up to 1 m is good"),
        (room(None).replace("length: 3 m, ", ""), "measure C01 and W01: together up to 99 m is good"),
        (room("30 m", wall="unknown", rates="[1G]", switch="[1G]"), "read the jacket of W01: 6A means 1 Gb/s (125 MB/s), 6 means 1 Gb/s (125 MB/s), 5e means 1 Gb/s (125 MB/s)"),
        (room("70 m", wall="unknown"), "read the jacket of W01: 6A means 10 Gb/s (1250 MB/s), 6 means 5 Gb/s (625 MB/s), 5e means 2.5 Gb/s (312 MB/s)"),
        (room(joint=", category: unknown"), "read the category moulded into plate/1"),
        (room("85 m", top="regime: tia").replace("length: 3 m, cord: 26 AWG", "length: 8 m"), "read the gauge printed on C01: 24 AWG is best"),
        (room().replace("rates: up to 10G, network", "network"), "write down `rates` of cut-1/wire, as its data sheet has them"),
    ],
)  # fmt: skip
def test_the_missing_fact_is_the_one_that_decides(text: str, decides: str) -> None:
    facts = facts_of(text)

    assert decides == remedies.missing_fact(run_of(facts), facts.plan).decides


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        (room(wall="5e"), "W01 is category 5e"),
        (room(wall="5e", cord="5e"), "C01, W01 and P01 are category 5e"),
        (room(joint=", category: 5e"), "plate/1 is category 5e"),
        (room("40 m", wall="6"), "C01, W01 and P01 are 44 m of unscreened category 6"),
        (room("120 m"), "C01, W01 and P01 are 124 m of unscreened category 6A"),
        (room("85 m", top="regime: tia").replace("length: 3 m,", "length: 11 m,"), "the cords among C01, W01 and P01 use up the loss that the run has left"),
        (room("84 m", top="ambient: 40 °C"), "C01, W01 and P01 are too long for air of 40 °C"),
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

    assert "category 6, which is good to 37 m (6A to 100 m)" == remedies.good_categories(run, 10_000_000_000)
    assert "category 5e, which is good to 100 m" == remedies.good_categories(run, 1_000_000_000)


def test_names_stand_in_a_row() -> None:
    assert ["a", "a and b", "a, b and c"] == [remedies.listed(names) for names in ("a", "ab", "abc")]
