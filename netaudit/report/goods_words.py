"""How the things of a bill are called, in every form alike."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from netaudit.model.goods import Total, What
from netaudit.model.plan import Price

_MANY: dict[What, str] = {
    "twinax": "twinax cables",
    "active twinax": "active twinax cables",
    "box": "boxes of cable",
    "switch": "switches",
    "storage": "storages",
    "ups": "UPSs",
    "other": "other things",
}
"""Goods whose many are not called by an added s."""
_ONE: dict[What, str] = {
    "twinax": "twinax cable",
    "active twinax": "active twinax cable",
    "box": "box of cable",
    "ups": "UPS",
    "other": "other thing",
}
"""Goods of which one is not called by their own word."""


def one_or_many(what: What, count: int) -> str:
    """The word for so many of a kind of goods: `cord`, `cords`, `box of cable`, `boxes of cable`."""
    return _ONE.get(what, what) if count == 1 else _MANY.get(what, f"{what}s")


NO_PRICES = "No prices were given, so there is no total: fill in --prices FILE, or `stock` in the plan."


def exact_text(amount: Decimal) -> str:
    """An amount of money as a plain number, with two decimals at least and none cut off: `57.50`, `41.355`."""
    return _with_decimals(f"{amount:f}")


def amount_text(amount: Decimal, currency: str) -> str:
    """An amount of money with all its decimals and two at least, as `1,041.20 EUR` and `0.995 EUR`."""
    return f"{_with_decimals(f'{amount:,f}')} {currency}"


def _with_decimals(number: str) -> str:
    """A number with two decimals at least."""
    whole, _, decimals = number.partition(".")
    return f"{whole}.{decimals:0<2}"


def price_text(price: Price | None) -> str:
    """A price, as `7.20 EUR`; empty where nobody gave it."""
    return "" if price is None else amount_text(price.amount, price.currency)


def total_text(totals: Sequence[Total], unpriced: int, *, complete: bool) -> str:
    """What it all comes to, in one sentence: each currency by itself, and what that leaves out.

    A bill that is not complete leaves out things that are not even a row of it.
    """
    if not totals:
        return NO_PRICES
    sums = " and ".join(amount_text(total.amount, total.currency) for total in totals)
    if complete and not unpriced:
        return f"All in all {sums}."
    gaps = [f"{_rows(unpriced)} without a price"] if unpriced else []
    if not complete:
        gaps.append("not all that the plan needs is counted yet")
    return f"What has a price comes to {sums}; {' and '.join(gaps)}."


def _rows(count: int) -> str:
    return "1 row is" if count == 1 else f"{count} rows are"
