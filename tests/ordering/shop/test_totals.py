"""What the priced rows of a bill come to."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from typing import Any

import pytest
from bills import UNMEASURED_WALLS, WALLS, bills, euros, full_bill
from hypothesis import given, settings

from netaudit.model.bill import Bill
from netaudit.model.goods import Goods, Item, Total
from netaudit.model.plan import Price
from netaudit.ordering.shop.totals import totals


def row(price: Price | None, quantity: int = 2, spares: int = 1) -> Item:
    return Item(Goods("cord"), quantity, spares, ("C01",), price)


def test_spares_are_paid_for_and_amounts_are_exact() -> None:
    """Ten times 0.10 are 1.00, which binary fractions do not give."""
    tenths = [row(euros("0.10"), quantity=1, spares=0) for _ in range(10)]

    assert ((Total("EUR", Decimal("22.50"), 1),), 0) == totals([row(euros("7.50"))], [])
    assert ((Total("EUR", Decimal("1.00"), 10),), 0) == totals(tenths, [])


def test_currencies_are_never_added_and_come_in_the_order_of_the_bill() -> None:
    rows = [row(None), row(Price(Decimal(3), "GBP")), row(euros("1")), row(Price(Decimal("0.5"), "GBP"))]

    assert ((Total("GBP", Decimal("10.5"), 2), Total("EUR", Decimal(3), 1)), 1) == totals(rows, [])


def test_what_is_free_has_a_price_and_nothing_at_all_has_no_total() -> None:
    assert ((Total("EUR", Decimal(0), 1),), 0) == totals([row(euros("0"))], [])
    assert ((), 0) == totals([], [])
    assert ((), 1) == totals([row(None)], [])


def test_boxes_of_one_size_and_price_are_one_row() -> None:
    counted = WALLS._replace(unmeasured=(), too_long=())

    assert ((Total("EUR", Decimal("308.80"), 2),), 0) == totals([], [counted])


@pytest.mark.parametrize("lacking", [{"unmeasured": ("W09",)}, {"too_long": ("W10",)}])
def test_runs_that_no_box_counts_are_a_row_without_a_price_even_beside_boxes(lacking: dict[str, Any]) -> None:
    counted = WALLS._replace(unmeasured=(), too_long=())

    assert ((Total("EUR", Decimal("308.80"), 2),), 1) == totals([], [counted._replace(**lacking)])
    assert ((), 1) == totals([], [UNMEASURED_WALLS])


def test_the_total_of_a_full_bill_is_the_one_summed_by_hand() -> None:
    """5 x 7.20 + 13 x 41.355 + 3 x 27.50 + 7 x 0.995 + 2 x 129.90 + 49, and 3 x 19 in pounds."""
    bill = full_bill()
    by_hand = Decimal("36") + Decimal("537.615") + Decimal("82.5") + Decimal("6.965") + Decimal("259.8") + 49

    assert ((Total("EUR", by_hand, 6), Total("GBP", Decimal(57), 1)), 7) == totals(
        (*bill.buy, *bill.modules, *bill.parts), bill.bulk
    )


def sums(bill: Bill) -> tuple[Counter[str], Counter[str], int]:
    found, unpriced = totals((*bill.buy, *bill.modules, *bill.parts), bill.bulk)
    return (
        Counter({one.currency: one.amount for one in found}),
        Counter({one.currency: one.rows for one in found}),
        unpriced,
    )


@settings(max_examples=60, deadline=None)
@given(one=bills(), other=bills())
def test_the_totals_of_two_bills_in_one_are_the_sums_of_their_totals(one: Bill, other: Bill) -> None:
    items = [item for bill in (one, other) for item in (*bill.buy, *bill.modules, *bill.parts)]
    found, unpriced = totals(items, (*one.bulk, *other.bulk))
    first, second = sums(one), sums(other)

    for total in found:
        assert first[0][total.currency] + second[0][total.currency] == total.amount
        assert first[1][total.currency] + second[1][total.currency] == total.rows
    assert first[0].keys() | second[0].keys() == {total.currency for total in found}
    assert first[2] + second[2] == unpriced
