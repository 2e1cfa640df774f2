"""Two bills side by side as JSON in the format netaudit.comparison/1; unknown is null, prices are decimal text."""

from __future__ import annotations

import json
from typing import Any

from netaudit.model.comparison import Comparison, Difference, TotalDifference
from netaudit.report.comparison.words import sentence
from netaudit.report.goods_values import decimal_text, goods_values, price_values

FORMAT = "netaudit.comparison/1"


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
    price = difference.price
    return {
        "section": difference.section,
        **goods_values(difference.goods),
        "before": difference.before,
        "after": difference.after,
        "more": difference.more,
        "price": price_values(price),
        "cost_more": price_values(None if price is None else price._replace(amount=price.amount * difference.more)),
    }


def _total(total: TotalDifference) -> dict[str, str]:
    return {
        "currency": total.currency,
        "before": decimal_text(total.before),
        "after": decimal_text(total.after),
        "more": decimal_text(total.after - total.before),
    }
