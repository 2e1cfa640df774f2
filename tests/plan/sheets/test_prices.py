"""Price lists: as a shop sends them, and as a bill's own sheet comes back."""

from __future__ import annotations

import csv
from collections.abc import Callable
from decimal import Decimal
from io import StringIO

import pytest
from bills import full_bill
from hypothesis import HealthCheck, given, settings
from spoiled import spoiled
from strategies import stock

from netaudit.errors import InputError
from netaudit.model.plan import Price, StockItem
from netaudit.plan.sheets.prices import read_prices
from netaudit.report.bill.formulas import is_formula
from netaudit.report.bill.sheets.goods import bill_sheet
from netaudit.report.bill.table_csv import as_csv
from netaudit.units import METRES_PER_FOOT

Told = Callable[[Callable[[str], object], str | bytes], list[str]]
Written = Callable[[str | bytes], str]

LIST = """\
what,category,screened,gauge,length [m],price [EUR]
cord,6A,no,26 AWG,3,7.20
cord,6A,YES,26,10 ft,8.5 CHF
box,6A,,,304.8,129
module 10GBASE-SR,,,,,27.50
cord,6A,no,26 AWG,5,
"""
ITEMS = (
    StockItem("cord", "6A", False, 26, 3.0, Price(Decimal("7.20"), "EUR")),
    StockItem("cord", "6A", True, 26, 10 * METRES_PER_FOOT, Price(Decimal("8.5"), "CHF")),
    StockItem("box", "6A", None, None, 304.8, Price(Decimal(129), "EUR")),
    StockItem("module 10GBASE-SR", None, None, None, None, Price(Decimal("27.50"), "EUR")),
)


def test_the_totals_below_a_table_are_no_goods(written: Written) -> None:
    assert ITEMS == read_prices(written(LIST + ",,,,,total\n,,,,,\nNothing is judged here,,,,,\n"))


def test_a_price_list_gives_what_has_a_price(written: Written) -> None:
    assert ITEMS == read_prices(written(LIST))


def test_a_spreadsheet_that_writes_semicolons_and_decimal_commas_gives_the_same(written: Written) -> None:
    abroad = LIST.replace(",", ";").replace(".", ",")

    assert ITEMS == read_prices(written(b"\xef\xbb\xbf" + abroad.replace("\n", "\r\n").encode()))


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(items=stock())
def test_any_stock_written_out_comes_back(separator: str, items: tuple[StockItem, ...], written: Written) -> None:
    text = StringIO(newline="")
    writer = csv.writer(text, delimiter=separator)
    writer.writerow(["what", "category", "screened", "gauge", "ends", "length", "price"])
    for item in items:
        length, price = item.length_m, item.price
        length_text = None if length is None else f"{Decimal(repr(length)):f} m"
        price_text = None if price is None else f"{price.amount:f} {price.currency}"
        what, ends = (f"'{each}" if each and is_formula(each) else each for each in (item.what, item.ends))
        writer.writerow([what, item.category, item.screened, item.cord_awg, ends, length_text, price_text])

    assert tuple(item for item in items if item.price is not None) == read_prices(written(text.getvalue()))


def test_a_bills_own_sheet_comes_back_with_its_prices(written: Written) -> None:
    bill = full_bill()
    rows = [item for item in (*bill.buy, *bill.modules, *bill.parts) if item.price is not None]
    found = read_prices(written(as_csv(bill_sheet(bill))))
    expected = {
        StockItem(
            item.goods.name,
            item.goods.category,
            item.goods.screened,
            item.goods.gauge_awg,
            item.goods.length_m,
            item.price,
            item.goods.ends,
        )
        for item in rows
    }

    assert expected == {item for item in found if item.what != "box"}
    assert {(304.8, Decimal("129.90")), (100.0, Decimal(49))} == {
        (item.length_m, item.price.amount) for item in found if item.what == "box" and item.price is not None
    }


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("what,price\nx,7.20 EUR\n", "7.20 EUR"),
        ("what,price\nx,7.20 €\n", "7.20 EUR"),
        ("what,price\nx,€7.20\n", "7.20 EUR"),
        ("what;price\nx;€ 7,20\n", "7.20 EUR"),
        ("what,price [€]\nx,7.20\n", "7.20 EUR"),
        ("what,price,currency\nx,7.20 €,EUR\n", "7.20 EUR"),
        ("what,price,currency\nx,7.20,€\n", "7.20 EUR"),
        ("what,price,currency\nx,7.20,EUR\n", "7.20 EUR"),
        ("what,price [CHF],currency\nx,7.20,EUR\n", "7.20 EUR"),
        ("what,price (EUR)\nx,7.20\n", "7.20 EUR"),
        ("what,price,currency\nx,7.20 EUR,EUR\n", "7.20 EUR"),
        ("what;price\nx;7,20\u00a0EUR\n", "7.20 EUR"),
        ("what\tprice\nx\t7,20 EUR\n", "7.20 EUR"),
        ("what,price\nx,0 EUR\n", "0 EUR"),
    ],
)
def test_a_currency_is_the_cells_own_or_its_rows_or_its_columns(text: str, expected: str, written: Written) -> None:
    # ISO 4217: a currency is named by three capital letters.
    amount, currency = expected.split()

    assert (StockItem("x", price=Price(Decimal(amount), currency)),) == read_prices(written(text))


@pytest.mark.parametrize(
    ("text", "expected_m"),
    [
        ("what;length;price\nx;3,048 m;1 EUR\n", 3.048),
        ("what\tlength\tprice\nx\t3.048 m\t1 EUR\n", 3.048),
        ("what\tlength\tprice\nx\t3,05 m\t1 EUR\n", 3.05),
        ('what,length,price\nx,"3.048\u00a0m",1 EUR\n', 3.048),
    ],
)
def test_three_decimals_of_a_length_are_millimetres_where_the_mark_is_certain(
    text: str, expected_m: float, written: Written
) -> None:
    assert (StockItem("x", length_m=expected_m, price=Price(Decimal(1), "EUR")),) == read_prices(written(text))


def test_a_comma_between_tabs_may_part_the_thousands_of_a_length(told: Told) -> None:
    assert ["sheet.csv:2:3: length: '3,048 m' may be thousands or thousandths: write no mark, or two decimals"] == told(
        read_prices, "what\tlength\tprice\nx\t3,048 m\t1 EUR\n"
    )


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        (";;;;;1 EUR", "2:1: what: what is sold is missing here: write it as the bill calls it, such as cord"),
        ("x;;;;;-7,20 EUR", "2:7: price: '-7.20 EUR' is not a price: write an amount and a currency of three capitals, as 7.20 EUR"),
        ("x;;;;;7,20", "2:7: price: '7.20' is not a price: write an amount and a currency of three capitals, as 7.20 EUR"),
        ("x;;;;;nan", "2:7: price: 'nan' is not a price: write an amount and a currency of three capitals, as 7.20 EUR"),
        ("x;;;;;7e2 EUR", "2:7: price: '7e2 EUR' is not a price: write an amount and a currency of three capitals, as 7.20 EUR"),
        ("x;;;;;1.234 EUR", "2:7: price: '1.234 EUR' may be thousands or thousandths: write no mark, or two decimals"),
        ("x;;;;;7 £", "2:7: price: '7 £' is not a price: write an amount and a currency of three capitals, as 7.20 EUR"),
        ("x;;;;;1.199,00 EUR", "2:7: price: '1.199,00 EUR' has marks between its thousands: leave them out, as 1199.00"),
        ("x;;;;;€ 1,199.5", "2:7: price: '€ 1,199.5' has marks between its thousands: leave them out, as 1199.5"),
        ("x;;;;;1.199.000 EUR", "2:7: price: '1.199.000 EUR' has marks between its thousands: leave them out, as 1199000"),
        ("x;;;;;1 199,00 EUR", "2:7: price: '1 199,00 EUR' has marks between its thousands: leave them out, as 1199.00"),
        ("x;;;;;1'199 CHF", "2:7: price: '1'199 CHF' has marks between its thousands: leave them out, as 1199"),
        ("x;;;;-3 m;1 EUR", "2:6: length: '-3 m' is negative: a length is 1 mm to 200 km"),
        ("x;;;;3;1 EUR", "2:6: length: '3' has no unit: write '3 m', or call the column `length [m]`"),
        ("x;;;;nan;1 EUR", "2:6: length: 'nan' is not a number: a length is 1 mm to 200 km, and one you do not know is left out"),
        ("x;;;;1e3 m;1 EUR", "2:6: length: '1e3 m' is written with an exponent: write the number out, such as 38 m"),
        ("x;;;25;;1 EUR", "2:5: gauge: '25' is not a gauge of stranded cord: write one of 22 AWG, 23 AWG, 24 AWG, 26 AWG, 28 AWG"),
        ("x;;perhaps;;;1 EUR", "2:4: screened: 'perhaps' is neither yes nor no: write one of them, or nothing"),
    ],
)  # fmt: skip
def test_a_cell_that_is_not_right_is_told_at_its_place(row: str, expected: str, told: Told) -> None:
    assert [f"sheet.csv:{expected}"] == told(read_prices, f"what;category;screened;gauge;length;price\n{row}\n")


def test_a_comma_in_an_amount_of_a_sheet_that_commas_part_is_told(told: Told) -> None:
    assert [
        "sheet.csv:2:3: price: '7,20 EUR' has a comma: write a point before decimals, and nothing between thousands",
        "sheet.csv:3:3: price: '1,199.00 EUR' has marks between its thousands: leave them out, as 1199.00",
    ] == told(read_prices, 'what,price\nx,"7,20 EUR"\nx,"1,199.00 EUR"\n')


def test_a_wrong_category_is_told_the_nearest(told: Told) -> None:
    (line,) = told(read_prices, "what,category,price\ncord,6a,1 EUR\n")

    assert line.startswith("sheet.csv:2:6: category: '6a' is not a category; did you mean '6A'? It is one of 3, 5, 5e,")


def test_two_currencies_in_one_row_are_refused(told: Told) -> None:
    assert ["sheet.csv:2:3: price: '7 EUR' is not in 'CHF', which its row names: keep one currency"] == told(
        read_prices, "what,price,currency\nx,7 EUR,CHF\n"
    )


def test_every_wrong_cell_of_a_list_is_told_and_a_row_without_a_price_is_not_read(told: Told) -> None:
    text = "what,length,price\n,many,x\nx,many,\ny,2 m,z\n"

    assert ["2:1: what", "2:2: length", "2:7: price", "4:7: price"] == [
        ":".join(line.split(":")[1:4]) for line in told(read_prices, text)
    ]


def test_a_list_without_the_columns_that_it_needs_says_so(told: Told) -> None:
    assert [
        "sheet.csv:1:1: no column is called 'what', and the sheet needs it; is 'waht' meant for it?",
        "sheet.csv:1:1: no column is called 'price', and the sheet needs it",
    ] == told(read_prices, "waht,length\ncord,3 m\n")


def test_spoiled_lists_are_read_or_refused_and_nothing_else(written: Written) -> None:
    refused = 0
    for text in spoiled(LIST.replace(",", ";")):
        try:
            read_prices(written(text.encode(errors="surrogateescape")))
        except InputError as error:
            refused += len(error.problems) > 0

    assert 50 < refused < 207
