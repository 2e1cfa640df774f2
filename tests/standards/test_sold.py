"""Lengths and boxes as they are sold: a second table typed independently, and what a foot is."""

from __future__ import annotations

import csv

import pytest

from netaudit.standards.reading import FOLDER
from netaudit.standards.sold import held_m, sold_boxes, sold_lengths

FOOT_M = 0.3048
"""International foot: NIST SP 811 (2008), appendix B.8, exactly 0.3048 m."""

FEET = {
    # common practice, no source
    "cord": (0.5, 1, 2, 3, 5, 7, 10, 14, 20, 25, 30, 35, 50, 75, 100),
    "fibre cord": (1.5, 3, 6, 10, 15, 20, 25, 30, 50, 75, 100),
    "usb cable": (1.5, 3, 6, 10),
}
METRES = {
    # common practice, no source
    "cord": (0.25, 0.5, 1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50),
    "fibre cord": (0.5, 1, 2, 3, 5, 7, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100),
    "twinax": (0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 7),
    "active twinax": (1, 2, 3, 5, 7, 10, 15),
    "active optical cable": (1, 2, 3, 5, 7, 10, 15, 20, 30, 50, 100),
    "thunderbolt cable": (0.5, 0.8, 1, 2),
    "usb cable": (0.5, 1, 1.5, 2, 3),
}


def test_lengths_are_those_typed_a_second_time() -> None:
    assert METRES == {kind: row.lengths_m for (kind, series), row in sold_lengths().items() if series == "metric"}


def test_lengths_in_feet_are_exact_and_come_in_steps_of_a_foot() -> None:
    for kind, feet in FEET.items():
        row = sold_lengths()[kind, "imperial"]
        assert pytest.approx([one * FOOT_M for one in feet], abs=1e-12) == list(row.lengths_m)
        assert row.step_m == FOOT_M


def test_a_kind_that_is_sold_in_metres_everywhere_is_the_same_in_both_series() -> None:
    for kind in METRES.keys() - FEET.keys():
        assert sold_lengths()[kind, "metric"] == sold_lengths()[kind, "imperial"]
        assert sold_lengths()[kind, "imperial"].step_m == 1


@pytest.mark.parametrize("name", ["sold_lengths.csv", "box_sizes.csv"])
def test_feet_and_metres_of_a_row_agree(name: str) -> None:
    with (FOLDER / name).open(encoding="utf-8", newline="") as lines:
        rows = [row for row in csv.DictReader(lines) if row["length_ft"]]
    assert rows
    for row in rows:
        assert pytest.approx(float(row["length_ft"]) * FOOT_M, abs=1e-12) == float(row["length_m"])


def test_nothing_that_is_only_common_practice_calls_itself_a_standard() -> None:
    assert {"common practice"} == {box.source.standing for box in sold_boxes()}


def test_a_box_of_305_m_holds_a_thousand_feet_and_any_other_what_is_printed_on_it() -> None:
    assert 1000 * FOOT_M == pytest.approx(held_m(305), abs=1e-12)
    assert held_m(305) == held_m(304.8)
    assert held_m(500) == 500
    assert held_m(304) == 304
    assert held_m(100) == 100


def test_the_most_usual_box_comes_first() -> None:
    assert [("box", 304.8), ("reel", 500), ("reel", 1000)] == [(box.kind, box.length_m) for box in sold_boxes()]
