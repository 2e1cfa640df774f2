"""Totals: what the priced rows of a bill come to, each currency by itself."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from decimal import Decimal
from itertools import chain

from netaudit.model.bill import Bulk
from netaudit.model.goods import Goods, Item, Total
from netaudit.model.plan import Price


def totals(items: Iterable[Item], bulks: Iterable[Bulk]) -> tuple[tuple[Total, ...], int]:
    """A total for each currency in the order in which they come up, and how many rows have no price.

    Nothing is converted. The boxes of one size and price are a row; runs for which no box is chosen yet are one
    without a price.
    """
    bulks = tuple(bulks)
    amounts: dict[str, Decimal] = {}
    rows: Counter[str] = Counter()
    unpriced = sum(1 for bulk in bulks if not bulk.boxes)
    for item in chain(items, chain.from_iterable(map(box_items, bulks))):
        cost = item.cost
        if cost is None:
            unpriced += 1
            continue
        amounts[cost.currency] = amounts.get(cost.currency, Decimal(0)) + cost.amount
        rows[cost.currency] += 1
    return tuple(Total(currency, amount, rows[currency]) for currency, amount in amounts.items()), unpriced


def box_items(bulk: Bulk) -> Iterator[Item]:
    """The boxes of one kind of cable as rows: one for each size and price, with the cables cut from them."""
    boxes: dict[tuple[float, Price | None], list[int]] = {}
    for box in bulk.boxes:
        boxes.setdefault((box.size_m, box.price), []).append(box.number)
    row_of = {number: row for row, numbers in boxes.items() for number in numbers}
    serves: dict[tuple[float, Price | None], list[str]] = {row: [] for row in boxes}
    for cut in bulk.cuts:
        serves[row_of[cut.box]].append(cut.cable)
    for (size_m, price), numbers in boxes.items():
        goods = Goods("box", category=bulk.category, screened=bulk.screened, length_m=size_m)
        yield Item(goods, len(numbers), 0, tuple(serves[size_m, price]), price)
