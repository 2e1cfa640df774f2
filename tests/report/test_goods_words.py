"""How goods and money are called."""

from __future__ import annotations

from decimal import Decimal
from typing import get_args

from netaudit.model.goods import Total, What
from netaudit.model.plan import Price
from netaudit.report.goods_words import amount_text, exact_text, one_or_many, price_text, total_text


def test_a_price_that_nobody_gave_is_empty_and_never_zero() -> None:
    assert ["", "0.00 EUR", "7.20 EUR"] == [
        price_text(price) for price in (None, Price(Decimal(0), "EUR"), Price(Decimal("7.2"), "EUR"))
    ]


def test_an_amount_has_two_decimals_and_its_currency() -> None:
    assert "1,041.20 EUR" == amount_text(Decimal("1041.2"), "EUR")


def test_a_total_says_what_it_leaves_out() -> None:
    euros, francs = Total("EUR", Decimal("41.2"), 3), Total("CHF", Decimal(5), 1)

    assert [
        "No prices were given, so there is no total: fill in --prices FILE, or `stock` in the plan.",
        "All in all 41.20 EUR and 5.00 CHF.",
        "What has a price comes to 41.20 EUR; 1 row is without a price.",
        "What has a price comes to 41.20 EUR; 2 rows are without a price.",
    ] == [
        total_text((), 2, complete=True),
        total_text((euros, francs), 0, complete=True),
        total_text((euros,), 1, complete=True),
        total_text((euros,), 2, complete=True),
    ]


def test_a_bill_that_lacks_things_never_says_all_in_all() -> None:
    euros = Total("EUR", Decimal("41.2"), 3)

    assert [
        "No prices were given, so there is no total: fill in --prices FILE, or `stock` in the plan.",
        "What has a price comes to 41.20 EUR; not all that the plan needs is counted yet.",
        "What has a price comes to 41.20 EUR; 1 row is without a price and not all that the plan needs is counted yet.",
    ] == [
        total_text((), 0, complete=False),
        total_text((euros,), 0, complete=False),
        total_text((euros,), 1, complete=False),
    ]


def test_an_amount_keeps_every_decimal_that_it_has() -> None:
    """As CSV and JSON give them: text that rounded would not add up."""
    assert ["0.995 EUR", "1,041.2055 EUR", "-0.50 EUR", "1,000,000.00 EUR", "7.200 EUR"] == [
        amount_text(Decimal(text), "EUR") for text in ("0.995", "1041.2055", "-0.5", "1E+6", "7.200")
    ]
    assert ["0.995", "1041.20"] == [exact_text(Decimal(text)) for text in ("0.995", "1041.2")]


def test_one_of_a_kind_and_many_are_called_differently() -> None:
    assert ["cord", "cords", "box of cable", "boxes of cable", "twinax cable", "twinax cables", "switches", "UPSs"] == [
        one_or_many("cord", 1), one_or_many("cord", 0), one_or_many("box", 1), one_or_many("box", 2),
        one_or_many("twinax", 1), one_or_many("twinax", 3), one_or_many("switch", 2), one_or_many("ups", 2),
    ]  # fmt: skip
    assert all(one_or_many(what, 1) != one_or_many(what, 2) for what in get_args(What))
