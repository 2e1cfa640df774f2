"""Goods, prices, lengths and names as plain values, in every form alike; unknown is null."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from netaudit.model.goods import Goods
from netaudit.model.plan import Price

MICROMETRE_DIGITS = 6
"""Digits of a length in metres behind which floating point begins to show."""


def goods_values(goods: Goods) -> dict[str, Any]:
    """One kind of goods; whether it has a screen is null where that means nothing."""
    return {
        "what": goods.what,
        "detail": goods.detail,
        "category": goods.category,
        "screened": goods.screened,
        "gauge": None if goods.gauge_awg is None else f"{goods.gauge_awg} AWG",
        "ends": goods.ends,
        "length_m": rounded_m(goods.length_m),
    }


def price_values(price: Price | None) -> dict[str, str] | None:
    """A price, its amount in decimal text."""
    return None if price is None else {"amount": decimal_text(price.amount), "currency": price.currency}


def decimal_text(amount: Decimal) -> str:
    """An amount of money with the decimals that it has, in text, so that no reader rounds it."""
    return f"{amount:f}"


def rounded_m(length_m: float | None) -> float | None:
    """A length, rounded to a micrometre; what rounds to nothing has no sign [m]."""
    return None if length_m is None else round(length_m, MICROMETRE_DIGITS) + 0.0


def written(value: object) -> str | None:
    """A value as people write it, such as a port or an address."""
    return None if value is None else str(value)
