"""Totals: what the priced rows of a bill come to, each currency by itself."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from decimal import Decimal
from itertools import chain

from netaudit.model.bill import Bulk
from netaudit.model.goods import Item, Total


def totals(items: Iterable[Item], bulks: Iterable[Bulk]) -> tuple[tuple[Total, ...], int]:
    """A total for each currency in the order in which they come up, and how many rows have no price.

    Nothing is converted. The boxes of one size and price are a row; the runs of one kind that no box counts are one
    without a price.
    """
    bulks = tuple(bulks)
    amounts: dict[str, Decimal] = {}
    rows: Counter[str] = Counter()
    unpriced = sum(1 for bulk in bulks if bulk.uncounted)
    for item in chain(items, chain.from_iterable(bulk.items for bulk in bulks)):
        cost = item.cost
        if cost is None:
            unpriced += 1
            continue
        amounts[cost.currency] = amounts.get(cost.currency, Decimal(0)) + cost.amount
        rows[cost.currency] += 1
    return tuple(Total(currency, amount, rows[currency]) for currency, amount in amounts.items()), unpriced
