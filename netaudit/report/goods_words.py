"""How the things of a bill are called, in every form alike."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from netaudit.model.goods import Total, What
from netaudit.model.plan import Price

_MANY: dict[What, str] = {
    "twinax": "twinax cables",
    "active twinax": "active twinax cables",
    "box": "boxes",
    "switch": "switches",
    "storage": "storages",
    "ups": "UPSs",
    "other": "other things",
}
"""Goods whose many are not called by an added s."""
_ONE: dict[What, str] = {
    "twinax": "twinax cable",
    "active twinax": "active twinax cable",
    "ups": "UPS",
    "other": "other thing",
}
"""Goods of which one is not called by their own word."""


def one_or_many(what: What, count: int) -> str:
    """The word for so many of a kind of goods: `cord`, `cords`, `box`, `boxes`."""
    return _ONE.get(what, what) if count == 1 else _MANY.get(what, f"{what}s")


def amount_text(amount: Decimal, currency: str) -> str:
    """An amount of money, as `1,041.20 EUR`."""
    return f"{amount:,.2f} {currency}"


def price_text(price: Price | None) -> str:
    """A price, as `7.20 EUR`; empty where nobody gave it."""
    return "" if price is None else amount_text(price.amount, price.currency)


def total_text(totals: Sequence[Total], unpriced: int) -> str:
    """What it all comes to, in one sentence: each currency by itself, and how much of the bill has no price."""
    if not totals:
        return "No prices were given, so there is no total."
    sums = " and ".join(amount_text(total.amount, total.currency) for total in totals)
    if not unpriced:
        return f"All in all {sums}."
    return f"What has a price comes to {sums}; {_rows(unpriced)} without a price."


def _rows(count: int) -> str:
    return "1 row is" if count == 1 else f"{count} rows are"
