"""The lengths and boxes that can be bought, and what they cost."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.model.goods import Goods, What
from netaudit.model.plan import Price, StockItem
from netaudit.ordering.request import Series
from netaudit.ordering.shop.stock import Stock
from netaudit.standards.sold import sold_lengths

FOOT_M = 0.3048
"""NIST SP 811 (2008), appendix B.8: exactly 0.3048 m."""
CORD = Goods("cord", category="6A", screened=False, gauge_awg=26)
BOX = Goods("box", category="6A", screened=False)


def euros(amount: str) -> Price:
    return Price(Decimal(amount), "EUR")


def stock(*items: StockItem, prices: tuple[StockItem, ...] = (), series: Series = "metric") -> Stock:
    return Stock(items, prices, series)


@pytest.mark.parametrize(
    ("series", "needed_m", "sold_m"),
    [
        # common practice, no source
        ("metric", 3.0, 3), ("metric", 3.001, 5), ("metric", 0.1 + 0.2, 0.5), ("metric", 7.2, 7.5), ("metric", 0.001, 0.25),
        ("metric", 50, 50), ("metric", 50.1, 51), ("metric", 120, 120), ("metric", 200_000, 200_000),
        ("imperial", 0.9144, 3 * FOOT_M), ("imperial", 3 * FOOT_M, 3 * FOOT_M), ("imperial", 1, 5 * FOOT_M),
        ("imperial", 100 * FOOT_M, 100 * FOOT_M), ("imperial", 100.5 * FOOT_M, 101 * FOOT_M),
        ("imperial", 123 * FOOT_M, 123 * FOOT_M),
    ],
)  # fmt: skip
def test_the_series_gives_the_next_length_and_beyond_it_the_next_whole_metre_or_foot(
    series: Series, needed_m: float, sold_m: float
) -> None:
    assert pytest.approx(sold_m, abs=1e-9) == stock(series=series).sold_length_m(CORD, needed_m)


@pytest.mark.parametrize("kind", ["cord", "fibre cord", "usb cable"])
@pytest.mark.parametrize("feet", [1, 3, 10, 100, 101, 333])
def test_made_to_order_feet_have_no_noise(kind: str, feet: int) -> None:
    sold_m = stock(series="imperial").sold_length_m(Goods(kind), feet * FOOT_M)

    assert round(sold_m, 4) == sold_m
    assert sold_m >= feet * FOOT_M - 1e-9


def test_noise_of_binary_fractions_does_not_buy_a_longer_cord() -> None:
    assert 3.0 == stock().sold_length_m(CORD, 3.0 + 4e-16 * 3)
    assert 5.0 == stock().sold_length_m(CORD, 3.0 + 1e-6)
    assert 51.0 == stock().sold_length_m(CORD, 51.0 + 1e-12)
    assert 52.0 == stock().sold_length_m(CORD, 51.0 + 1e-6)


def test_lengths_of_the_plans_own_stock_are_the_only_ones() -> None:
    own = stock(StockItem("patch cords", "6A", length_m=4.0), StockItem("patch cords", "6A", length_m=1.0))

    assert 4.0 == own.sold_length_m(CORD, 1.2)
    assert 2.0 == own.sold_length_m(CORD._replace(category="6"), 1.6)


def test_what_is_longer_than_all_of_the_stock_comes_from_the_series_and_is_told() -> None:
    own = stock(StockItem("cord", "6A", length_m=4.0))

    assert 5.0 == own.sold_length_m(CORD, 4.5)
    assert own.falls_short(CORD, 4.5)
    assert not own.falls_short(CORD, 4.0)
    assert not own.falls_short(CORD._replace(category="6"), 4.5)
    assert not stock().falls_short(CORD, 400.0)


def test_a_price_list_gives_no_lengths() -> None:
    listed = stock(prices=(StockItem("cord", "6A", length_m=4.0, price=euros("7")),))

    assert 5.0 == listed.sold_length_m(CORD, 3.5)


def test_goods_that_are_no_cable_have_no_length() -> None:
    with pytest.raises(KeyError):
        stock().sold_length_m(Goods("module"), 1.0)


def test_the_price_of_a_cord_is_that_of_the_item_that_says_most() -> None:
    own = stock(
        StockItem("cord", price=euros("1")),
        StockItem("cord", "6A", price=euros("2")),
        StockItem("cord", "6A", cord_awg=26, length_m=3.0, price=euros("3")),
        StockItem("cord", "6A", cord_awg=26, price=euros("4")),
        StockItem("cord", "6A", True, 26, 3.0, price=euros("5")),
    )

    assert euros("3") == own.price(CORD._replace(length_m=3.0))
    assert euros("4") == own.price(CORD._replace(length_m=5.0))
    assert euros("2") == own.price(CORD._replace(gauge_awg=24))
    assert euros("1") == own.price(CORD._replace(category="6"))
    assert own.price(Goods("fibre cord", category="OM4")) is None


def test_the_whole_name_says_more_than_the_kind() -> None:
    own = stock(
        StockItem("module", price=euros("30")),
        StockItem("transceiver 10GBASE-SR", price=euros("27.50")),
        StockItem("twinax", price=euros("19")),
        StockItem("DAC qsfp+ - 4 x sfp+", price=euros("49")),
    )

    assert euros("27.50") == own.price(Goods("module", "10GBASE-SR"))
    assert euros("30") == own.price(Goods("module", "10GBASE-LR"))
    assert euros("49") == own.price(Goods("twinax", category="twinax", ends="qsfp+ - 4 x sfp+", length_m=1.0))
    assert euros("19") == own.price(Goods("twinax", category="twinax", ends="sfp+ - sfp+", length_m=1.0))


def test_of_equals_the_price_list_wins_and_then_the_first_though_it_is_dearer() -> None:
    own = (StockItem("cord", "6A", price=euros("9")), StockItem("lead", "6A", price=euros("1")))
    listed = (StockItem("patch cord", "6A", price=euros("12")), StockItem("cord", "6A", price=euros("2")))

    assert euros("9") == stock(*own).price(CORD)
    assert euros("12") == stock(*own, prices=listed).price(CORD)


def test_a_price_list_that_says_less_does_not_hide_the_stock() -> None:
    own = stock(StockItem("cord", "6A", length_m=3.0, price=euros("9")), prices=(StockItem("cord", price=euros("2")),))

    assert euros("9") == own.price(CORD._replace(length_m=3.0))
    assert euros("2") == own.price(CORD._replace(length_m=5.0))


def test_nothing_is_priced_by_an_item_without_a_price_and_nothing_costs_nothing_but_what_is_free() -> None:
    own = stock(StockItem("cord", "6A", length_m=3.0), StockItem("jack", price=euros("0")))

    assert own.price(CORD._replace(length_m=3.0)) is None
    assert euros("0") == own.price(Goods("jack", category="6A"))


def test_a_cable_that_nobody_measured_has_no_price_of_a_length() -> None:
    assert stock(StockItem("cord", "6A", length_m=3.0, price=euros("9"))).price(CORD) is None


def test_a_cord_of_any_gauge_is_priced_by_the_first_of_any_gauge() -> None:
    own = stock(
        StockItem("cord", "6A", cord_awg=24, price=euros("9")), StockItem("cord", "6A", cord_awg=26, price=euros("8"))
    )

    assert euros("9") == own.price(CORD._replace(gauge_awg=None))


def test_an_item_that_states_a_gauge_loses_where_the_goods_state_none() -> None:
    any_gauge, thin = StockItem("cord", "6A", price=euros("9")), StockItem("cord", "6A", cord_awg=28, price=euros("8"))

    for own in (stock(thin, any_gauge), stock(any_gauge, thin), stock(any_gauge, prices=(thin,))):
        assert euros("9") == own.price(CORD._replace(gauge_awg=None))
        assert euros("8") == own.price(CORD._replace(gauge_awg=28))


def test_ends_tell_goods_apart() -> None:
    own = stock(
        StockItem("fibre cord", "OM4", ends="lc - lc", price=euros("9")),
        StockItem("fibre cord", "OM4", ends="lc - sc", length_m=4.0, price=euros("8")),
    )
    cord = Goods("fibre cord", category="OM4", ends="lc - lc")

    assert [euros("9"), None] == [own.price(cord), own.price(cord._replace(ends=None))]
    assert euros("8") == own.price(cord._replace(ends="lc - sc", length_m=4.0))
    assert [5.0, 4.0] == [own.sold_length_m(cord._replace(ends=ends), 3.5) for ends in ("lc - lc", "lc - sc")]


def test_a_fact_that_is_said_twice_counts_once() -> None:
    own = stock(StockItem("cord 6A", "6A", price=euros("1")), StockItem("cord", "6A", cord_awg=26, price=euros("2")))

    assert euros("2") == own.price(CORD)


def test_the_least_length_of_the_plans_own_stock_is_none_where_it_has_none() -> None:
    own = stock(StockItem("cord", "6A", length_m=4.0), StockItem("cord", "6A", length_m=9.0))

    assert [4.0, 9.0, None] == [own.own_length_m(CORD, needed_m) for needed_m in (1.0, 4.1, 9.1)]
    assert stock().own_length_m(CORD, 1.0) is None


def test_the_usual_box_is_a_thousand_feet() -> None:
    """Common practice, no source; 1000 ft are 304.8 m exactly."""
    ((size_m, price),) = stock().box_sizes("6A", False, ())

    assert pytest.approx(1000 * FOOT_M, abs=1e-12) == size_m
    assert price is None


def test_boxes_of_the_stock_come_before_the_usual_one_each_with_its_price() -> None:
    own = stock(
        StockItem("reel", "6A", length_m=500.0, price=euros("210")),
        StockItem("box of cable", "6A", length_m=305.0),
        StockItem("box", "5e", length_m=100.0, price=euros("20")),
        StockItem("box", "6A", screened=True, length_m=250.0),
    )

    assert ((304.8, None), (500.0, euros("210"))) == own.box_sizes("6A", False, ())
    assert ((250.0, None), (304.8, None), (500.0, euros("210"))) == own.box_sizes("6A", True, ())
    assert ((100.0, euros("20")),) == own.box_sizes("5e", False, ())


def test_sizes_that_the_caller_names_come_before_all_others() -> None:
    own = stock(StockItem("drum", "6A", length_m=500.0, price=euros("210")), StockItem("box", price=euros("90")))

    assert ((304.8, euros("90")), (500.0, euros("210"))) == own.box_sizes("6A", False, (305.0, 304.8, 500.0))


def test_a_box_that_is_priced_by_305_m_is_the_box_of_304_8_m() -> None:
    listed = stock(prices=(StockItem("boxes", "6A", length_m=305.0, price=euros("129.90")),))

    assert euros("129.90") == listed.price(BOX._replace(length_m=304.8))


LENGTHS_M = st.one_of(
    st.integers(1, 300).map(float), st.floats(0.001, 200_000), st.integers(1, 400).map(lambda n: n * FOOT_M)
)


KINDS = st.sampled_from(tuple(kind for kind, series in sold_lengths() if series == "metric"))
SERIES = st.sampled_from(("metric", "imperial"))


@settings(max_examples=200, deadline=None)
@given(kind=KINDS, series=SERIES, needed_m=LENGTHS_M)
def test_what_the_series_gives_is_long_enough_and_nothing_shorter_would_do(
    kind: What, series: Series, needed_m: float
) -> None:
    sold_m = stock(series=series).sold_length_m(Goods(kind), needed_m)
    row = sold_lengths()[kind, series]
    enough = [length_m for length_m in row.lengths_m if length_m >= needed_m - 1e-9]

    assert sold_m >= needed_m - 1e-9
    assert min(enough, default=sold_m) == sold_m
    assert enough or sold_m - row.step_m < needed_m
    assert enough or pytest.approx(round(sold_m / row.step_m), abs=1e-6) == sold_m / row.step_m


@settings(max_examples=100, deadline=None)
@given(kind=KINDS, series=SERIES, needed_m=LENGTHS_M, own_m=st.lists(LENGTHS_M, max_size=4))
def test_the_stock_gives_its_shortest_that_will_do_or_leaves_it_to_the_series(
    kind: What, series: Series, needed_m: float, own_m: list[float]
) -> None:
    shop = stock(*(StockItem(kind, length_m=length_m) for length_m in own_m), series=series)
    enough = [length_m for length_m in own_m if length_m >= needed_m - 1e-9]
    otherwise_m = stock(series=series).sold_length_m(Goods(kind), needed_m)

    assert min(enough, default=otherwise_m) == shop.sold_length_m(Goods(kind), needed_m)
    assert (bool(own_m) and not enough) == shop.falls_short(Goods(kind), needed_m)


@settings(max_examples=100, deadline=None)
@given(series=SERIES, needed_m=st.lists(LENGTHS_M, min_size=2, max_size=2))
def test_who_needs_more_never_gets_less(series: Series, needed_m: list[float]) -> None:
    less_m, more_m = sorted(needed_m)

    assert stock(series=series).sold_length_m(CORD, less_m) <= stock(series=series).sold_length_m(CORD, more_m)
