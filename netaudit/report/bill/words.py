"""How the things of a bill are called, in every form alike."""

from __future__ import annotations

from collections.abc import Sequence

from netaudit.model.goods import Goods, Total
from netaudit.model.plan import Price
from netaudit.units import length_text


def goods_text(goods: Goods) -> str:
    """One kind of goods in words: `cord 6A, screened, 26 AWG, 3 m`."""
    first = goods.name if goods.category is None else f"{goods.name} {goods.category}"
    parts = [
        first,
        "screened" if goods.screened else None,
        None if goods.gauge_awg is None else f"{goods.gauge_awg} AWG",
        goods.ends,
        None if goods.length_m is None else length_text(goods.length_m),
    ]
    return ", ".join(part for part in parts if part is not None)


def price_text(price: Price | None) -> str:
    """A price, as `7.20 EUR`; empty where nobody gave it."""
    return "" if price is None else f"{price.amount:,.2f} {price.currency}"


def total_text(totals: Sequence[Total], unpriced: int) -> str:
    """What it all comes to, in one sentence: each currency by itself, and how much of the bill has no price."""
    if not totals:
        return "No prices were given, so there is no total."
    sums = " and ".join(f"{total.amount:,.2f} {total.currency}" for total in totals)
    if not unpriced:
        return f"All in all {sums}."
    return f"What has a price comes to {sums}; {_rows(unpriced)} without a price."


def _rows(count: int) -> str:
    return "1 row is" if count == 1 else f"{count} rows are"
