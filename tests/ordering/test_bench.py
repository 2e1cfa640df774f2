"""Bench tests: every row of the bill is tested, and what must be seen follows from the published limits."""

from __future__ import annotations

from typing import get_args

import pytest

from netaudit.model.bill import Box, Bulk
from netaudit.model.goods import Goods, Item, What
from netaudit.model.moving import BenchTest
from netaudit.ordering.bench import bench_tests


def item(what: What, **fields: object) -> Item:
    """Three of some goods and one spare."""
    return Item(Goods(what, **fields), 3, 1, ("C01", "C02", "C03"))  # type: ignore[arg-type]


def trial(what: What, **fields: object) -> BenchTest:
    """The test of some goods."""
    (test,) = bench_tests([item(what, **fields)], [], [], [])
    return test


BULK = Bulk("6A", True, (Box(1, 304.8, 20.0), Box(2, 304.8, 90.0)), (), "fewest boxes", 2, None, True)


def test_every_row_has_a_test_in_the_order_of_the_bill_and_spares_are_tested_too() -> None:
    cords, modules, jacks = (
        item("cord", category="6A"),
        item("module", detail="10GBASE-SR"),
        item("jack", category="6A"),
    )

    found = bench_tests([cords], [BULK], [modules], [jacks])

    assert [("cord 6A", 4), ("box 6A, screened", 2), ("module 10GBASE-SR", 4), ("jack 6A", 4)] == [
        test[:2] for test in found
    ]


def test_bulk_of_which_no_box_is_known_has_nothing_to_test() -> None:
    assert bench_tests([], [BULK._replace(boxes=())], [], []) == ()


@pytest.mark.parametrize(
    ("category", "length_m", "rate"),
    [
        ("5e", 3.0, "2.5 Gb/s"),  # IEEE 802.3bz: 2.5GBASE-T over category 5e to 100 m
        ("6", 3.0, "10 Gb/s"),  # IEEE 802.3an: 10GBASE-T over category 6 to 37 m at least
        ("6", 80.0, "5 Gb/s"),  # IEEE 802.3bz: 5GBASE-T over category 6 to 100 m
        ("6A", 90.0, "10 Gb/s"),  # IEEE 802.3an: 10GBASE-T over category 6A to 100 m
        ("8.1", 2.0, "40 Gb/s"),  # IEEE 802.3bq: 40GBASE-T over category 8 to 30 m
    ],
)
def test_a_cord_must_link_at_the_rate_that_its_category_promises(category: str, length_m: float, rate: str) -> None:
    assert f"it must link at {rate}, or at the best" in trial("cord", category=category, length_m=length_m).how


def test_a_cord_of_unknown_category_is_held_to_no_rate() -> None:
    assert "must link at the best of both ports" in trial("cord").how


def test_a_module_is_tested_in_pairs_and_never_by_one_side() -> None:
    how = trial("module", detail="10GBASE-SR").how

    assert "in pairs" in how
    assert "Both ends must show 10 Gb/s: never trust one side" in how


def test_the_caps_are_a_matter_of_optical_modules_only() -> None:
    assert "caps" in trial("module", detail="10GBASE-SR").how
    assert "caps" not in trial("module", detail="10GBASE-T").how


def test_fibre_is_looked_at_by_microscope_cleaned_and_only_then_plugged() -> None:
    how = trial("fibre cord", category="OM4").how

    assert sorted(how.index(word) for word in ("microscope", "clean", "plug.")) == [
        how.index(word) for word in ("microscope", "clean", "plug.")
    ]
    assert "never look into a fibre" in how


def test_a_box_is_read_for_conductor_fire_class_and_metre_marks() -> None:
    (test,) = bench_tests([], [BULK], [], [])

    assert all(
        word in test.how for word in ("category 6A", "solid copper", "fire class", "first and the last metre mark")
    )


@pytest.mark.parametrize("what", get_args(What))
def test_everything_that_can_be_bought_has_a_test(what: What) -> None:
    assert trial(what).how.endswith(".")
