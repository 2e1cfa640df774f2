"""Two bills side by side: what more and what less the second one orders, and what that costs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal, NamedTuple

from netaudit.listing import listed
from netaudit.model.bill import Bill
from netaudit.model.comparison import Comparison, Difference, TotalDifference
from netaudit.model.goods import Goods, Item
from netaudit.model.plan import Price

Section = Literal["cables", "boxes", "modules", "parts"]
SECTIONS: tuple[Section, ...] = ("cables", "boxes", "modules", "parts")
"""Sections in the order of the bill."""


class _Key(NamedTuple):
    """What makes rows of two bills the same row."""

    section: Section
    goods: Goods


@dataclass(slots=True)
class _Row:
    """What one bill orders of some goods; nothing where it has no such row."""

    ordered: int = 0
    prices: set[Price | None] = field(default_factory=set)
    """Price of one in each of its rows."""


def compare(before: Bill, after: Bill) -> Comparison:
    """A second bill held against a first one, row by row; rows are the same if their section and goods are.

    Counts include spares. Amounts in different currencies are never added.
    """
    first, second = _rows(before), _rows(after)
    keys = sorted(dict.fromkeys((*first, *second)), key=lambda key: SECTIONS.index(key.section))
    none = _Row()
    pairs = [(key, first.get(key, none), second.get(key, none)) for key in keys]
    differences = [
        Difference(key.section, key.goods, one.ordered, other.ordered, _price(one, other))
        for key, one, other in pairs
        if one.ordered != other.ordered
    ]
    return Comparison(
        before=before.file,
        after=after.file,
        differences=tuple(differences),
        same=len(pairs) - len(differences),
        totals=_totals(before, after),
        unpriced=(before.unpriced, after.unpriced),
        open=tuple(dict.fromkeys((*_open(before), *_open(after), *_repriced(pairs)))),
    )


def _rows(bill: Bill) -> dict[_Key, _Row]:
    """Everything that a bill orders, in its order."""
    rows: dict[_Key, _Row] = {}
    for section, item in _items(bill):
        row = rows.setdefault(_Key(section, item.goods), _Row())
        row.ordered += item.order
        row.prices.add(item.price)
    return rows


def _items(bill: Bill) -> Iterator[tuple[Section, Item]]:
    yield from (("cables", item) for item in bill.buy)
    yield from (("boxes", item) for bulk in bill.bulk for item in bulk.items)
    yield from (("modules", item) for item in bill.modules)
    yield from (("parts", item) for item in bill.parts)


def _price(one: _Row, other: _Row) -> Price | None:
    """Price of one in both; None where nobody knows it, or where two are given."""
    known = (one.prices | other.prices) - {None}
    return known.pop() if len(known) == 1 else None


def _totals(before: Bill, after: Bill) -> tuple[TotalDifference, ...]:
    """What both come to in each currency that either has priced rows in."""
    first = {total.currency: total.amount for total in before.totals}
    second = {total.currency: total.amount for total in after.totals}
    nothing = Decimal(0)
    return tuple(
        TotalDifference(currency, first.get(currency, nothing), second.get(currency, nothing))
        for currency in dict.fromkeys((*first, *second))
    )


def _open(bill: Bill) -> Iterator[str]:
    """What the counts of one bill leave out."""
    too_long = [name for bulk in bill.bulk for name in bulk.too_long]
    if bill.to_measure:
        yield f"{bill.file}: length not known, so counted without one and cut from no box: {listed(bill.to_measure)}."
    if bill.to_choose:
        yield f"{bill.file}: category not known, so nothing is ordered: {listed(bill.to_choose)}."
    if bill.unnamed:
        yield f"{bill.file}: module not named, so none is ordered: {listed(bill.unnamed)}."
    if too_long:
        yield f"{bill.file}: longer than any box, so cut from none: {listed(too_long)}."


def _repriced(pairs: Iterable[tuple[_Key, _Row, _Row]]) -> Iterator[str]:
    """That the same goods have two prices, which no difference of counts shows."""
    count = sum(1 for _, one, other in pairs if len((one.prices | other.prices) - {None}) > 1)
    if count:
        row, its = ("1 row has", "its") if count == 1 else (f"{count} rows have", "their")
        yield f"{row} more than one price, so the totals differ by {its} prices as well as by what is ordered."
