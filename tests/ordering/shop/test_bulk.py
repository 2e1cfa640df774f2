"""Bulk cable: runs between passive ports, cut from boxes and never joined."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from typing import Any

import pytest
from cuttings import triplets
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import cable

from netaudit.calculations.cutting import CutBox, Cutting
from netaudit.model.bill import Box, Bulk, Cut
from netaudit.model.plan import Cable, Price, StockItem
from netaudit.ordering.request import Request
from netaudit.ordering.shop.bulk import bulk
from netaudit.ordering.shop.stock import Stock

FOOT_M = 0.3048
"""The international foot, exactly: NIST Special Publication 811, appendix B.6."""
NO_STOCK = Stock((), (), "metric")


def run(name: str, length_m: float | None, **fields: Any) -> Cable:
    return cable(name, "plate/1", "panel/1", fields.pop("category", "6A"), length_m, **fields)


def only(cables: list[Cable], stock: Stock = NO_STOCK, **choices: Any) -> Bulk:
    """The one row of runs of one kind."""
    (row,), stopped = bulk(cables, stock, Request(**choices))
    assert stopped is False
    return row


def box(length_m: float, price: str | None, currency: str = "EUR", **fields: Any) -> StockItem:
    return StockItem(
        "box", "6A", length_m=length_m, price=None if price is None else Price(Decimal(price), currency), **fields
    )


def test_a_run_takes_its_length_and_the_waste_of_both_ends_off_a_box_of_a_thousand_feet() -> None:
    row = only([run("W1", 40.0)])
    assert (Box(1, 1000 * FOOT_M, 263.8),) == row.boxes
    assert (Cut(1, "W1", 41.0, 40.0, 263.8),) == row.cuts
    assert ("fewest boxes", 1, True, None) == (row.objective, row.lower_bound, row.proved_optimal, row.price_bound)


def test_what_a_run_takes_is_rounded_up_to_whole_millimetres_but_not_by_the_noise_of_fractions() -> None:
    row = only([run("W1", 0.1 + 0.2), run("W2", 40.0001)], boxes_m=(100.0,), waste_m=0.0)
    assert (Cut(1, "W2", 40.001, 40.0001, 59.999), Cut(1, "W1", 0.3, 0.1 + 0.2, 59.699)) == row.cuts


def test_cuts_are_told_box_by_box_and_the_longest_first() -> None:
    row = only([run(f"W{length}", float(length)) for length in (10, 60, 90, 30)], boxes_m=(100.0,), waste_m=0.0)
    assert 2 == len(row.boxes)
    assert row.cuts == tuple(sorted(row.cuts, key=lambda cut: (cut.box, -cut.length_m)))


def test_the_fewest_boxes_are_found_where_taking_the_longest_run_first_needs_two_more() -> None:
    """Johnson, Demers, Ullman, Garey and Graham, SIAM J. Comput. 3 (1974) 299: 6 of 51, 27 and 26 and 12 of 23, in 100."""
    lengths = [51] * 6 + [27] * 6 + [26] * 6 + [23] * 12
    row = only([run(f"W{n}", float(each)) for n, each in enumerate(lengths)], boxes_m=(100.0,), waste_m=0.0)
    assert (9, 9, True) == (len(row.boxes), row.lower_bound, row.proved_optimal)


def test_each_category_and_screen_is_a_row_in_the_order_of_their_first_cables() -> None:
    cables = [
        run("W1", 10.0),
        run("W2", 10.0, category="7A", screened=True),
        run("W3", 10.0, screened=True),
        run("W4", 5.0),
    ]
    rows, _ = bulk(cables, NO_STOCK, Request())
    assert [("6A", False), ("7A", True), ("6A", True)] == [(row.category, row.screened) for row in rows]
    assert ["W1", "W4"] == [cut.cable for cut in rows[0].cuts]


def test_runs_that_nobody_measured_are_named_and_counted_in_no_box() -> None:
    row = only([run("W1", None), run("W2", 20.0)])
    assert (("W1",), 1, ["W2"]) == (row.unmeasured, len(row.boxes), [cut.cable for cut in row.cuts])


def test_without_any_measured_run_nothing_is_bounded_or_proved() -> None:
    row = only([run("W1", None)])
    assert ((), (), None, None, None, None) == (
        row.boxes,
        row.cuts,
        row.lower_bound,
        row.price_bound,
        row.proved_optimal,
        row.cost,
    )


def test_no_cable_is_no_row() -> None:
    assert ((), False) == bulk([], NO_STOCK, Request())


@pytest.mark.parametrize(
    ("length_m", "size_m"), [(400.0, 500.0), (499.0, 500.0), (499.1, 1000.0), (700.0, 1000.0), (999.0, 1000.0)]
)
def test_a_run_longer_than_the_usual_box_comes_from_the_least_usual_reel_that_holds_it(
    length_m: float, size_m: float
) -> None:
    row = only([run("W1", length_m)])
    assert ([size_m], ()) == ([each.size_m for each in row.boxes], row.too_long)


def test_only_runs_that_no_own_size_holds_come_from_a_reel_and_the_others_from_the_stock() -> None:
    stock = Stock((box(100.0, "40"), box(50.0, "25")), (), "metric")
    cables = [run("W1", 30.0), run("W2", 200.0), run("W3", 80.0), run("W4", None), run("W5", 2000.0)]
    (own, reel), _ = bulk(cables, stock, Request())

    assert ([50.0, 100.0], {"W1", "W3"}) == (sorted(each.size_m for each in own.boxes), {cut.cable for cut in own.cuts})
    assert ([500.0], ["W2"]) == ([each.size_m for each in reel.boxes], [cut.cable for cut in reel.cuts])
    assert [("lowest price", Price(Decimal(65), "EUR")), ("fewest boxes", None)] == [
        (row.objective, row.cost) for row in (own, reel)
    ]
    assert [(("W4",), ("W5",)), ((), ())] == [(row.unmeasured, row.too_long) for row in (own, reel)]


def test_a_reel_has_the_price_that_is_given_for_it() -> None:
    (_, reel), _ = bulk([run("W1", 30.0), run("W2", 400.0)], Stock((), (box(500.0, "210"),), "metric"), Request())

    assert (Price(Decimal(210), "EUR"), 1, True) == (reel.cost, reel.lower_bound, reel.proved_optimal)


def test_what_no_box_counts_stands_with_the_reel_where_nothing_else_is_cut() -> None:
    row = only([run("W1", None), run("W2", 400.0), run("W3", 2000.0)])
    assert (("W1",), ("W3",), [500.0]) == (row.unmeasured, row.too_long, [each.size_m for each in row.boxes])


@pytest.mark.parametrize(
    ("lengths_m", "sizes_m"),
    [((350.0, 700.0), [500.0, 1000.0]), ((350.0, 600.0), [1000.0]), ((510.0, 700.0), [1000.0, 1000.0])],
)
def test_each_reel_is_the_least_usual_one_that_holds_its_runs(
    lengths_m: tuple[float, ...], sizes_m: list[float]
) -> None:
    row = only([*(run(f"W{length_m}", length_m) for length_m in lengths_m), run("W1", 2000.0)])
    assert (sizes_m, ("W1",)) == (sorted(each.size_m for each in row.boxes), row.too_long)


def test_only_reels_that_hold_a_run_are_offered_so_that_a_price_of_each_of_them_is_enough() -> None:
    stock = Stock((), (box(1000.0, "400"),), "metric")
    assert ("lowest price", Price(Decimal(800), "EUR")) == (
        only([run("W1", 600.0), run("W2", 700.0)], stock).objective,
        only([run("W1", 600.0), run("W2", 700.0)], stock).cost,
    )


def test_reels_that_all_have_a_price_are_mixed_for_the_lowest_one() -> None:
    stock = Stock((), (box(500.0, "210"), box(1000.0, "400")), "metric")
    row = only([run("W1", 350.0), run("W2", 700.0)], stock)
    assert ("lowest price", Price(Decimal(610), "EUR"), True) == (row.objective, row.cost, row.proved_optimal)


def test_no_reel_is_offered_where_a_box_holds_every_run() -> None:
    """A run of 303.8 m takes 304.8 m with half a metre lost at each end; the stock's longest box counts, not its first."""
    usual = only([run("W1", 303.8), run("W2", 10.0)])
    own = only([run("W1", 200.0), run("W2", 200.0)], Stock((box(100.0, None), box(300.0, None)), (), "metric"))
    assert ([304.8, 304.8], [300.0, 300.0]) == (
        [each.size_m for each in usual.boxes],
        [each.size_m for each in own.boxes],
    )


def test_a_run_longer_than_the_boxes_of_the_stock_comes_from_a_reel() -> None:
    row = only([run("W1", 200.0)], Stock((box(100.0, None),), (), "metric"))
    assert [500.0] == [each.size_m for each in row.boxes]


def test_a_run_longer_than_every_reel_is_told_and_the_others_are_cut() -> None:
    row = only([run("W1", 1000.0), run("W2", 400.0)])
    assert (("W1",), ["W2"], [500.0]) == (
        row.too_long,
        [cut.cable for cut in row.cuts],
        [each.size_m for each in row.boxes],
    )


def test_a_run_longer_than_every_box_is_told_where_the_caller_names_the_sizes() -> None:
    row = only([run("W1", 120.0), run("W2", 99.0)], boxes_m=(100.0, 50.0))
    assert (("W1",), ["W2"]) == (row.too_long, [cut.cable for cut in row.cuts])


def test_boxes_priced_in_one_currency_are_mixed_for_the_lowest_price() -> None:
    stock = Stock((box(100.0, "50"), box(300.0, "90")), (), "metric")
    row = only([run("W1", 90.0), run("W2", 90.0), run("W3", 90.0), run("W4", 60.0)], stock, waste_m=0.0)
    assert ("lowest price", Price(Decimal(140), "EUR"), Price(Decimal(140), "EUR")) == (
        row.objective,
        row.cost,
        row.price_bound,
    )
    assert [100.0, 300.0] == sorted(each.size_m for each in row.boxes)


@pytest.mark.parametrize("second", [box(300.0, None), box(300.0, "90", "CHF")], ids=["no price", "another currency"])
def test_boxes_without_one_price_each_in_one_currency_are_as_few_as_can_be(second: StockItem) -> None:
    row = only(
        [run("W1", 90.0), run("W2", 90.0), run("W3", 90.0)], Stock((box(100.0, "1"), second), (), "metric"), waste_m=0.0
    )
    assert ("fewest boxes", [300.0], None) == (row.objective, [each.size_m for each in row.boxes], row.price_bound)
    assert [second.price] == [each.price for each in row.boxes]


def test_progress_names_the_kind_of_cable() -> None:
    """The search has to be long enough to tell something: thirds of a box, without waste, that no simple rule packs."""
    told: list[str] = []
    runs = [run(f"W{n}", float(each), screened=True) for n, each in enumerate(triplets(seed=0, boxes=20))]
    only(runs, boxes_m=(1000.0,), waste_m=0.0, tell=told.append)
    assert told
    assert ["category 6A, screened: "] * len(told) == [line[: len("category 6A, screened: ")] for line in told]


def first_fit(limits_s: list[float], *, stopped: bool) -> Any:
    """A stand-in for the search that cuts each run from a box of its own and notes the time that it was given [s]."""

    def cut(runs_mm: Any, sizes: Any, *, limit_s: float, tell: Any, stop: Any) -> Cutting:
        limits_s.append(limit_s)
        boxes = tuple(CutBox(0, (number,)) for number in range(len(runs_mm)))
        return Cutting(boxes, "fewest boxes", 1, None, False, stopped and stop())

    return cut


def test_the_time_is_shared_by_the_rows_according_to_their_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    limits_s: list[float] = []
    monkeypatch.setattr("netaudit.ordering.shop.bulk.cut", first_fit(limits_s, stopped=False))
    cables = [
        run("W1", 1.0),
        run("W2", 1.0),
        run("W3", 1.0),
        run("S1", 1.0, screened=True),
        run("S2", None, screened=True),
    ]
    bulk(cables, NO_STOCK, Request(limit_s=40.0))
    assert [30.0, 10.0] == limits_s


def test_a_search_that_somebody_stopped_is_told_and_its_best_answer_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("netaudit.ordering.shop.bulk.cut", first_fit([], stopped=True))
    (row,), stopped = bulk([run("W1", 30.0), run("W2", 20.0)], NO_STOCK, Request(stop=lambda: True))
    assert (True, False, 2, ["W1", "W2"]) == (
        stopped,
        row.proved_optimal,
        len(row.boxes),
        [cut.cable for cut in row.cuts],
    )


lengths_m = st.one_of(st.none(), st.integers(1, 60).map(float), st.floats(0.01, 120))
runs = st.lists(st.tuples(lengths_m, st.booleans(), st.sampled_from(["6A", "7A"])), max_size=12).map(
    lambda rows: [run(f"W{n}", m, screened=s, category=c) for n, (m, s, c) in enumerate(rows)]
)


@settings(max_examples=30, deadline=None)
@given(runs, st.sampled_from([(), (100.0,), (100.0, 30.5)]), st.floats(0, 5))
def test_every_run_is_cut_once_or_told_and_nothing_is_lost_to_the_millimetre(
    cables: list[Cable], boxes_m: tuple[float, ...], waste_m: float
) -> None:
    rows, _ = bulk(cables, NO_STOCK, Request(boxes_m=boxes_m, waste_m=waste_m))
    told = [name for row in rows for name in (*[cut.cable for cut in row.cuts], *row.unmeasured, *row.too_long)]
    assert Counter(line.name for line in cables) == Counter(told)
    needed_m = {line.name: line.length_m + 2 * waste_m for line in cables if line.length_m is not None}
    for row in rows:
        assert all(-1e-9 <= cut.length_m - needed_m[cut.cable] <= 0.001 + 1e-9 for cut in row.cuts)
        for each in row.boxes:
            cut_mm = sum(round(cut.length_m * 1000) for cut in row.cuts if cut.box == each.number)
            assert round(each.size_m * 1000) == cut_mm + round(each.left_m * 1000)
            assert each.left_m >= 0
        assert row.lower_bound is None or row.lower_bound <= len(row.boxes)
