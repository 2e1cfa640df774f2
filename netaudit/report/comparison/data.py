"""Two bills side by side as JSON in the format netaudit.comparison/1; unknown is null, prices are decimal text."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

from netaudit.model.comparison import Comparison, Difference, TotalDifference
from netaudit.model.plan import Price
from netaudit.report.comparison.words import sentence

FORMAT = "netaudit.comparison/1"
_DIGITS = 6
"""Decimals of a length in metres, behind which floating point begins to show."""


def as_json(comparison: Comparison) -> str:
    """The whole comparison; ends with a line feed."""
    return json.dumps(document(comparison), ensure_ascii=False, indent=2) + "\n"


def document(comparison: Comparison) -> dict[str, Any]:
    """The whole comparison as plain values."""
    before, after = comparison.unpriced
    return {
        "format": FORMAT,
        "before": {"file": comparison.before, "unpriced": before},
        "after": {"file": comparison.after, "unpriced": after},
        "sentence": sentence(comparison),
        "differences": [_difference(difference) for difference in comparison.differences],
        "same": comparison.same,
        "totals": [_total(total) for total in comparison.totals],
        "open": list(comparison.open),
    }


def _difference(difference: Difference) -> dict[str, Any]:
    """One kind of goods; what has no screen is not screened."""
    goods, price = difference.goods, difference.price
    return {
        "section": difference.section,
        "what": goods.what,
        "detail": goods.detail,
        "category": goods.category,
        "screened": bool(goods.screened),
        "gauge": None if goods.gauge_awg is None else f"{goods.gauge_awg} AWG",
        "ends": goods.ends,
        "length_m": None if goods.length_m is None else round(goods.length_m, _DIGITS),
        "before": difference.before,
        "after": difference.after,
        "more": difference.more,
        "price": _price(price),
        "cost_more": None if price is None else _price(price._replace(amount=price.amount * difference.more)),
    }


def _total(total: TotalDifference) -> dict[str, str]:
    return {
        "currency": total.currency,
        "before": _amount(total.before),
        "after": _amount(total.after),
        "more": _amount(total.after - total.before),
    }


def _price(price: Price | None) -> dict[str, str] | None:
    """A price in decimal text, so that no reader rounds it."""
    return None if price is None else {"amount": _amount(price.amount), "currency": price.currency}


def _amount(amount: Decimal) -> str:
    return f"{amount:f}"
