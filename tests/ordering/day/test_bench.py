"""Bench tests: every row of the bill is tested, and what must be seen follows from the published limits."""

from __future__ import annotations

from typing import get_args

import pytest

from netaudit.model.bill import Box, Bulk
from netaudit.model.goods import Goods, Item, What
from netaudit.model.moving import BenchTest
from netaudit.ordering.day.bench import bench_tests


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

    boxes = ("box of cable 6A, screened, 304.8 m (1000 ft)", 2)
    assert [("cord 6A", 4), boxes, ("module 10GBASE-SR", 4), ("jack 6A", 4)] == [test[:2] for test in found]


def test_each_size_of_box_and_reel_has_a_test_of_its_own() -> None:
    mixed = BULK._replace(screened=False, boxes=(Box(1, 304.8, 0.0), Box(2, 100.0, 0.0), Box(3, 304.8, 0.0)))
    reel = mixed._replace(boxes=(Box(1, 500.0, 99.0),))

    assert [
        ("box of cable 6A, 304.8 m (1000 ft)", 2),
        ("box of cable 6A, 100 m", 1),
        ("reel of cable 6A, 500 m", 1),
    ] == [test[:2] for test in bench_tests([], [mixed, reel], [], [])]


def test_bulk_of_which_no_box_is_known_has_nothing_to_test() -> None:
    assert bench_tests([], [BULK._replace(boxes=())], [], []) == ()


@pytest.mark.parametrize(
    ("category", "length_m", "rate"),
    [
        ("5e", 3.0, "2.5 Gb/s (312 MB/s)"),  # IEEE 802.3bz: 2.5GBASE-T over category 5e to 100 m
        ("6", 3.0, "10 Gb/s (1250 MB/s)"),  # IEEE 802.3an: 10GBASE-T over category 6 to 37 m at least
        ("6", 80.0, "5 Gb/s (625 MB/s)"),  # IEEE 802.3bz: 5GBASE-T over category 6 to 100 m
        ("6A", 100.0, "10 Gb/s (1250 MB/s)"),  # IEEE 802.3an: 10GBASE-T over category 6A to 100 m
        ("8.1", 2.0, "40 Gb/s (5000 MB/s)"),  # IEEE 802.3bq: 40GBASE-T over category 8 to 30 m
    ],
)
def test_a_cord_must_link_at_the_rate_that_its_category_promises(category: str, length_m: float, rate: str) -> None:
    assert f"it must link at {rate}, or at the best" in trial("cord", category=category, length_m=length_m).how


def test_a_screen_lets_category_6_carry_ten_gigabits_farther() -> None:
    # TIA TSB-155: 10GBASE-T over category 6 to 37 m, to 55 m where alien crosstalk is mitigated, as a screen does.
    assert ["at 5 Gb/s (625 MB/s)", "at 10 Gb/s (1250 MB/s)"] == [
        trial("cord", category="6", length_m=50.0, screened=screened)
        .how.partition("it must link ")[2]
        .partition(",")[0]
        for screened in (False, True)
    ]


def test_a_cord_of_unknown_category_is_held_to_no_rate() -> None:
    assert "must link at the best of both ports" in trial("cord").how


def test_a_module_is_tested_in_pairs_and_never_by_one_side() -> None:
    how = trial("module", detail="10GBASE-SR").how

    assert "in pairs" in how
    assert "Both ends must show 10 Gb/s (1250 MB/s): never trust one side" in how


def test_the_caps_are_a_matter_of_optical_modules_only() -> None:
    assert "caps" in trial("module", detail="10GBASE-SR").how
    assert "caps" not in trial("module", detail="10GBASE-T").how


def test_fibre_is_looked_at_by_microscope_cleaned_and_only_then_plugged() -> None:
    how = trial("fibre cord", category="OM4").how

    assert sorted(how.index(word) for word in ("microscope", "clean", "plug.")) == [
        how.index(word) for word in ("microscope", "clean", "plug.")
    ]
    assert "never look into a fibre" in how


@pytest.mark.parametrize(
    "phy", ["10GBASE-ER", "10GBASE-ZR", "40GBASE-ER4", "100GBASE-ZR", "1000BASE-ZX", "10GBASE-BR40-D"]
)
def test_a_module_for_the_farthest_reach_is_never_joined_by_a_short_cord_alone(phy: str) -> None:
    # IEEE Std 802.3-2022, tables 52-16 and 52-17: 10GBASE-ER sends up to 4 dBm and receives -1 dBm at most (memory).
    assert (
        "never with a short cord alone, since too much light can harm the receiver" in trial("module", detail=phy).how
    )


@pytest.mark.parametrize("phy", ["10GBASE-LR", "1000BASE-LX", "1000BASE-LX10", "100GBASE-LR4", "10GBASE-BR10-U"])
def test_the_data_sheet_of_a_module_for_a_long_reach_says_whether_it_bears_its_own_light(phy: str) -> None:
    how = trial("module", detail=phy).how

    assert "the most light that they send and the most that they bear" in how
    assert "never with a short cord" not in how


@pytest.mark.parametrize("phy", ["10GBASE-SR", "10GBASE-LRM", "10GBASE-T", "CWDM4", None])
def test_other_modules_bear_their_own_light(phy: str | None) -> None:
    assert "attenuator" not in trial("module", detail=phy).how


def test_a_box_is_read_for_conductor_fire_class_and_the_metre_mark_that_can_be_seen() -> None:
    (test,) = bench_tests([], [BULK], [], [])

    assert ("box of cable 6A, screened, 304.8 m (1000 ft)", 2) == test[:2]
    assert all(word in test.how for word in ("category 6A", "solid copper", "fire class"))
    assert "Note the metre mark at the pulling end now and before each pull" in test.how
    assert "last metre mark" not in test.how


def test_a_run_from_a_box_has_the_same_scheme_at_both_ends_and_its_wire_map_checked() -> None:
    """Source: ANSI/TIA-568, pin and pair assignments T568A and T568B."""
    (test,) = bench_tests([], [BULK], [], [])

    assert "by the same scheme, T568A or T568B of ANSI/TIA-568" in test.how
    assert "wire map with a tester before the wall is closed" in test.how
    assert "installer's work" in test.how


def test_jacks_are_looked_at_for_what_can_be_seen() -> None:
    assert "batch" not in trial("jack").how


@pytest.mark.parametrize("what", get_args(What))
def test_everything_that_can_be_bought_has_a_test(what: What) -> None:
    assert trial(what).how.endswith(".")
