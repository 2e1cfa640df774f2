"""A bill's own sheet with its prices filled in: every row comes back with its own price."""

from __future__ import annotations

import csv
from dataclasses import replace
from io import StringIO
from itertools import chain
from pathlib import Path

from bills import bills, empty_bill
from hypothesis import HealthCheck, assume, given, settings
from strategies import plans

from netaudit.model.bill import Bill
from netaudit.model.goods import Goods, Item
from netaudit.model.plan import Plan
from netaudit.ordering.bill import bill
from netaudit.ordering.request import Request
from netaudit.ordering.shop.matching import folded
from netaudit.ordering.shop.stock import Stock
from netaudit.plan.sheets.prices import read_prices
from netaudit.report.bill.sheets.goods import bill_sheet
from netaudit.report.bill.table_csv import as_csv

LONGEST_M = 200_000.0
"""The greatest length that is read [m]; routes may add up to more."""


def filled(made: Bill) -> str:
    """The bill's own sheet with a price of its own in each row, counted up from 1 EUR."""
    head, *rows = csv.reader(StringIO(as_csv(bill_sheet(made)), newline=""))
    price, currency = head.index("price"), head.index("currency")
    for number, row in enumerate(rows, 1):
        row[price], row[currency] = str(number), "EUR"
    text = StringIO(newline="")
    csv.writer(text).writerows([head, *rows])
    return text.getvalue()


def goods_of(made: Bill) -> list[Goods]:
    """The goods of each row of the bill's own sheet."""
    boxes = [[*(item.goods for item in one.items), *([one.kind] if one.uncounted else [])] for one in made.bulk]
    items = (*made.modules, *made.parts)
    return [*(item.goods for item in made.buy), *chain.from_iterable(boxes), *(item.goods for item in items)]


def are_twins(one: Goods, other: Goods) -> bool:
    """Whether nobody can tell two rows apart, but for blanks, case and less than a millimetre."""
    if folded(one.name) != folded(other.name) or one[2:6] != other[2:6]:
        return False
    if one.length_m is None or other.length_m is None:
        return one.length_m is other.length_m
    return abs(one.length_m - other.length_m) <= 0.001


def check_round_trip(made: Bill, folder: Path) -> None:
    """Each row gets the price that was filled in, or that of the first row which reads the same."""
    goods = goods_of(made)
    sheet = folder / "filled.csv"
    sheet.write_text(filled(made), encoding="utf-8", newline="")
    found = Stock((), read_prices(sheet), "metric")
    expected = [1 + next(n for n, first in enumerate(goods) if are_twins(first, one)) for one in goods]

    assert expected == [int(price.amount) for one in goods if (price := found.price(one)) is not None]


def readable(made: Bill) -> Bill:
    """The same without lengths under the millimetre, which no plan has."""

    def longer(items: tuple[Item, ...]) -> tuple[Item, ...]:
        return tuple(
            item._replace(goods=item.goods._replace(length_m=item.goods.length_m and max(0.001, item.goods.length_m)))
            for item in items
        )

    return replace(made, buy=longer(made.buy), modules=longer(made.modules), parts=longer(made.parts))


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(made=bills())
def test_every_row_of_any_bill_gets_the_price_that_is_filled_in(made: Bill, tmp_path: Path) -> None:
    check_round_trip(readable(made), tmp_path)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(plan=plans())
def test_every_row_of_the_bill_of_any_plan_gets_the_price_that_is_filled_in(plan: Plan, tmp_path: Path) -> None:
    plain = replace(plan, cables={name: cable._replace(label=None) for name, cable in plan.cables.items()})

    made = bill(plain, Request(limit_s=1))
    assume(all((goods.length_m or 0.0) <= LONGEST_M for goods in goods_of(made)))
    check_round_trip(made, tmp_path)


def test_cords_of_any_gauge_and_fibre_cords_of_other_ends_keep_their_own_prices(tmp_path: Path) -> None:
    thick = Goods("cord", None, "6A", False, 24, None, 3.0)
    fibre = Goods("fibre cord", None, "OM4", None, None, "lc - lc", 3.0)
    rows = (thick, thick._replace(gauge_awg=None), fibre._replace(ends="lc - sc"), fibre, fibre._replace(ends=None))
    buy = tuple(Item(goods, 1, 1, ("C01",)) for goods in rows)

    check_round_trip(replace(empty_bill(), buy=buy), tmp_path)
    check_round_trip(replace(empty_bill(), buy=buy[::-1]), tmp_path)


def test_a_switch_that_is_told_by_more_ports_than_a_name_may_be_long_comes_back(tmp_path: Path) -> None:
    ports = "24 x rj45 2.5 Gb/s + 8 x rj45 10 Gb/s + 4 x sfp28 25 Gb/s + 2 x qsfp28 100 Gb/s"

    check_round_trip(replace(empty_bill(), parts=(Item(Goods("switch", ports), 1, 0, ("core",)),)), tmp_path)
