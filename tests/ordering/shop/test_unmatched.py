"""Prices that are the price of nothing on the bill."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from bills import CORD, MODULE, UNMEASURED_WALLS, WALLS
from rooms import plan_of, room

from netaudit.model.bill import Box
from netaudit.model.plan import Price, StockItem
from netaudit.ordering.bill import bill
from netaudit.ordering.request import Request
from netaudit.ordering.shop.stock import Stock
from netaudit.ordering.shop.unmatched import unmatched


def row(what: str, category: Any = None, **facts: Any) -> StockItem:
    return StockItem(what, category, price=Price(Decimal(1), "EUR"), **facts)


def told(*prices: StockItem, boxes_m: tuple[float, ...] = ()) -> tuple[str, ...]:
    stock = Stock((), prices, "metric")
    return unmatched(prices, (CORD, MODULE), (WALLS, UNMEASURED_WALLS), stock, boxes_m)


@pytest.mark.parametrize(
    "price",
    [
        row("cord"), row("Patch cords", "6A", cord_awg=26, length_m=3.0), row("transceiver 10GBASE-SR"), row("box"),
        row("box", "6A", length_m=305.0), row("box", "5e"), row("reel", "5e", length_m=304.8),
        row("box", "6A", length_m=100.0),
    ],
)  # fmt: skip
def test_a_price_of_something_on_the_bill_is_not_told(price: StockItem) -> None:
    assert () == told(price)


def test_rows_that_match_nothing_are_told_with_what_they_say() -> None:
    assert (
        "1 row of the prices matches nothing on this bill: cord 6A, 28 AWG, 10 ft (3.05 m). "
        "Name things as the bill's own CSV does.",
    ) == told(row("cord", "6A", cord_awg=28, length_m=3.048), row("cord"))
    assert (
        "3 rows of the prices match nothing on this bill: patch thing, screened, box 5e, 200 m and lamp, unscreened, sc. "
        "Name things as the bill's own CSV does.",
    ) == told(
        row("patch thing", screened=True),
        row("box", "5e", length_m=200.0),
        row("lamp", screened=False, ends="sc"),
    )


def test_a_size_of_box_that_could_be_chosen_is_asked_for() -> None:
    price = row("box", "5e", length_m=200.0)

    assert (1, 0) == (len(told(price)), len(told(price, boxes_m=(200.0, 100.0))))


def test_a_shorter_reel_than_the_one_that_is_ordered_is_asked_for() -> None:
    reel = WALLS._replace(boxes=(Box(1, 1000.0, 49.0),), cuts=())
    prices = [row("reel", WALLS.category, length_m=length_m) for length_m in (500.0, 1000.0)]

    assert () == unmatched(prices, (), (reel,), Stock((), prices, "metric"), ())
    assert 1 == len(unmatched(prices[:1], (), (WALLS,), Stock((), prices, "metric"), ()))


def test_nothing_is_told_without_prices() -> None:
    assert () == told()


def test_the_bill_tells_it() -> None:
    made = bill(plan_of(room()), Request(prices=(row("cord", "6A"), row("cable tie"))))

    assert ["1 row of the prices matches nothing on this bill: cable tie. Name things as the bill's own CSV does."] == [
        remark for remark in made.remarks if "of the prices" in remark
    ]
