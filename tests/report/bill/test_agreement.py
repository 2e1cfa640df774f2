"""All forms of a bill come to the same totals."""

from __future__ import annotations

import csv
import io
from collections import defaultdict
from collections.abc import Iterable
from decimal import Decimal
from typing import Any

import openpyxl
import pytest
from bills import bills, empty_bill, full_bill
from hypothesis import given, settings

from netaudit.model.bill import Bill
from netaudit.report.bill.data.bill import as_data
from netaudit.report.bill.sheets.every import sheet
from netaudit.report.bill.table_csv import as_csv
from netaudit.report.bill.workbook.workbook import as_xlsx

Sums = dict[str, Decimal]


def summed(costs: Iterable[tuple[str, Decimal]]) -> Sums:
    """The sum of each currency."""
    sums: Sums = defaultdict(Decimal)
    for currency, amount in costs:
        sums[currency] += amount
    return dict(sums)


def sums_of_bill(bill: Bill) -> Sums:
    """What the totals of the bill say."""
    return {total.currency: total.amount for total in bill.totals}


def sums_of_csv(bill: Bill) -> tuple[Sums, int]:
    """What the rows of the CSV come to, each as quantity and spares times its price; rows without a price."""
    rows = list(csv.DictReader(io.StringIO(as_csv(sheet(bill, "bill")), newline="")))
    priced = [row for row in rows if row["price"]]
    costs = [(row["currency"], (int(row["quantity"]) + int(row["spares"])) * Decimal(row["price"])) for row in priced]
    assert [Decimal(row["sum"]) for row in priced] == [amount for _, amount in costs]
    return summed(costs), len(rows) - len(priced)


def sums_of_xlsx(bill: Bill) -> tuple[Sums, Sums]:
    """What the sums of the workbook's rows come to, and the totals below them, to a thousandth."""
    worksheet = openpyxl.load_workbook(io.BytesIO(as_xlsx(bill)))["bill"]
    names = [cell.value for cell in worksheet[1]]
    place = {name: names.index(name) for name in ("price", "currency", "sum")}
    rows: list[Any] = [row for row in worksheet.iter_rows(2, values_only=True) if row[place["sum"]] is not None]
    costs = [
        (
            row[place["price"]] == "total",
            row[place["currency"]],
            Decimal(str(row[place["sum"]])).quantize(Decimal("0.001")),
        )
        for row in rows
    ]
    below = {currency: amount for is_total, currency, amount in costs if is_total}
    return summed((currency, amount) for is_total, currency, amount in costs if not is_total), below


def sums_of_json(bill: Bill) -> tuple[Sums, Sums]:
    """What the costs of the JSON's rows come to, boxes one by one, and its totals."""
    data = as_data(bill)
    prices = [row["cost"] for key in ("buy", "modules", "parts") for row in data[key]]
    prices += [price for bulk in data["bulk"] for price in bulk["prices"]]
    rows = summed((price["currency"], Decimal(price["amount"])) for price in prices if price is not None)
    return rows, {total["currency"]: Decimal(total["amount"]) for total in data["totals"]}


def assert_agreement(bill: Bill) -> None:
    """Hold every form's sums against the bill's totals."""
    expected = sums_of_bill(bill)
    from_csv, unpriced = sums_of_csv(bill)

    assert expected == from_csv
    assert bill.unpriced == unpriced == as_data(bill)["unpriced"]
    assert (expected, expected) == sums_of_xlsx(bill)
    assert (expected, expected) == sums_of_json(bill)


@pytest.mark.parametrize("bill", [full_bill(), empty_bill()])
def test_the_totals_of_all_forms_agree(bill: Bill) -> None:
    assert_agreement(bill)


@given(bills())
@settings(max_examples=40, deadline=None)
def test_the_totals_of_all_forms_of_any_bill_agree(bill: Bill) -> None:
    assert_agreement(bill)


def test_the_totals_of_the_full_bill_are_those_of_a_sum_by_hand() -> None:
    """Five cords of 7.20, 13 of 41.355, two boxes of 129.90, one of 49, three modules of 27.50, seven jacks of 0.995."""
    by_hand = Decimal("36.00") + Decimal("537.615") + Decimal("259.80") + 49 + Decimal("82.5") + Decimal("6.965")

    assert {"EUR": by_hand, "GBP": Decimal(57)} == sums_of_bill(full_bill())
