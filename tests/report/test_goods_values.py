"""Goods, prices and lengths as plain values."""

from __future__ import annotations

from decimal import Decimal

import pytest

from netaudit.model.goods import Goods
from netaudit.model.place import PortRef
from netaudit.model.plan import Price
from netaudit.report.goods_values import decimal_text, goods_values, price_values, rounded_m, written


@pytest.mark.parametrize(
    ("value_m", "expected"),
    [(None, "None"), (0.1 + 0.2, "0.3"), (-1e-9, "0.0"), (304.8, "304.8"), (0.0000014, "1e-06")],
)
def test_a_length_is_rounded_to_a_micrometre_and_has_no_negative_zero(value_m: float | None, expected: str) -> None:
    assert expected == str(rounded_m(value_m))


def test_an_amount_keeps_the_decimals_that_it_has_and_an_unknown_price_is_null() -> None:
    assert ["0.995", "7.20", "100"] == [decimal_text(Decimal(text)) for text in ("0.995", "7.20", "1E+2")]
    assert [None, {"amount": "0.995", "currency": "EUR"}] == [
        price_values(price) for price in (None, Price(Decimal("0.995"), "EUR"))
    ]


def test_goods_have_every_key_and_null_for_what_means_nothing() -> None:
    assert {
        "what": "fibre cord", "detail": "12 fibres", "category": "OM4", "screened": None, "gauge": None,
        "ends": "mpo - mpo", "length_m": 0.3,
    } == goods_values(Goods("fibre cord", "12 fibres", "OM4", ends="mpo - mpo", length_m=0.1 + 0.2))  # fmt: skip
    assert [False, "26 AWG"] == [
        goods_values(Goods("cord", category="6A", screened=False, gauge_awg=26))[key] for key in ("screened", "gauge")
    ]


def test_a_name_is_written_as_people_write_it_and_what_is_not_there_stays_null() -> None:
    assert ["cut-1/wire", None] == [written(value) for value in (PortRef("cut-1", "wire"), None)]
