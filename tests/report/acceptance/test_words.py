"""The answer of a filled sheet."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from netaudit.report.acceptance.words import counted, planned_text, seen_text, sentence

Made = Callable[..., Any]


def test_all_is_well_is_said_in_a_word(report: Made, good: Made) -> None:
    assert ["All 32 cables run as planned.", "The one cable runs as planned."] == [
        sentence(report(*good(32))),
        sentence(report(*good(1))),
    ]


def test_the_cable_that_falls_short_is_named_with_both_rates_in_both_units(
    report: Made, good: Made, made_cable: Made
) -> None:
    expected = "31 of 32 cables run as planned; C09 came up at 1 Gb/s (125 MB/s) instead of 10 Gb/s (1250 MB/s)."

    assert expected == sentence(report(*good(31), made_cable("C09", "slower", 1_000_000_000)))


def test_of_several_the_worst_is_named_and_no_link_is_the_worst(report: Made, made_cable: Made) -> None:
    cables = [made_cable("C08", "slower", 1_000_000_000), made_cable("C09", "slower", 0)]

    assert (
        "None of 2 cables runs as planned; 2 fall short, the worst of them: C09 shows no link instead of "
        "10 Gb/s (1250 MB/s)."
    ) == sentence(report(*cables))


def test_nothing_is_a_pass_that_nobody_tested_or_that_the_plan_has_no_rate_for(
    report: Made, good: Made, made_cable: Made
) -> None:
    untested, unplanned = made_cable("C12", "not tested"), made_cable("C13", "nothing to hold it against", 10, None)

    assert [
        "None of the 2 cables is tested yet.",
        "The one cable is not tested yet.",
        "2 of 3 cables run as planned; 1 is not tested.",
        "1 of 3 cables runs as planned; 2 have no planned rate to hold them against.",
        "The plan has no cable that shows a rate, so that there is nothing to accept.",
        "All 2 cables run as planned.",
    ] == [
        sentence(report(untested, untested)),
        sentence(report(untested)),
        sentence(report(*good(2), untested)),
        sentence(report(*good(1), unplanned, unplanned)),
        sentence(report()),
        sentence(report(*good(2), made_cable("W05", "no rate to read"))),
    ]


def test_a_link_that_is_faster_than_planned_is_not_as_planned(report: Made, good: Made, made_cable: Made) -> None:
    faster = made_cable("C11", "faster", 10_000_000_000, 1_000_000_000)

    assert "1 of 2 cables runs as planned; C11 is faster than planned." == sentence(report(*good(1), faster))


def test_each_cable_is_counted_once(report: Made, every: Any) -> None:
    assert {
        "as expected": 1, "slower": 2, "faster": 1, "not tested": 1, "nothing to hold it against": 1,
        "no rate to read": 1,
    } == counted(report(*every))  # fmt: skip


def test_no_link_and_not_tested_and_not_planned_are_three_things(made_cable: Made) -> None:
    untested, blank = made_cable("C12", "not tested"), made_cable("C15", "as expected", None)
    dead, unplanned = made_cable("C10", "slower", 0), made_cable("C13", "nothing to hold it against", 10**9, None)

    assert ["not tested", "not tested", "no link", "1 Gb/s (125 MB/s)"] == [
        seen_text(cable) for cable in (untested, blank, dead, unplanned)
    ]
    assert ["10 Gb/s (1250 MB/s)", "none"] == [planned_text(cable) for cable in (dead, unplanned)]
