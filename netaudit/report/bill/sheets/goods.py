"""The sheet of what to order; with prices filled in by hand it can be read back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from netaudit.model.bill import Bill, Box, Bulk
from netaudit.model.goods import Item
from netaudit.model.plan import Price
from netaudit.report.bill.rounding import length_m
from netaudit.report.bill.sheet import Cell, Sheet
from netaudit.report.bill.sheets.cells import gauge, joined, numbers, screen, text

COLUMNS = (
    *text("what", "category", "screened", "gauge", "ends"),
    *numbers("length [m]", "quantity", "spares", "order", "price"),
    *text("currency"),
    *numbers("sum"),
    *text("serves"),
)


def bill_sheet(bill: Bill) -> Sheet:
    """A row for each kind of goods; boxes of one size and price are one kind."""
    rows = (
        *map(_item, bill.buy),
        *(row for bulk in bill.bulk for row in _boxes(bulk)),
        *map(_item, bill.modules),
        *map(_item, bill.parts),
    )
    return Sheet("bill", "What to order", COLUMNS, rows)


def _item(item: Item) -> tuple[Cell, ...]:
    goods = item.goods
    return (
        goods.name,
        goods.category,
        screen(goods.screened),
        gauge(goods.gauge_awg),
        goods.ends,
        length_m(goods.length_m),
        item.quantity,
        item.spares,
        item.order,
        *_money(item.price, item.order),
        joined(item.serves),
    )


def _boxes(bulk: Bulk) -> Iterator[tuple[Cell, ...]]:
    """The boxes of each size; where none can be chosen yet, a row that does not know how many."""
    for (size_m, price), boxes in _alike(bulk).items():
        count = len(boxes)
        serves = joined(cut.cable for cut in bulk.cuts if cut.box in boxes)
        yield (*_kind(bulk), length_m(size_m), count, 0, count, *_money(price, count), serves)
    if not bulk.boxes:
        yield (*_kind(bulk), *[None] * 7, joined((*bulk.unmeasured, *bulk.too_long)))


def _alike(bulk: Bulk) -> Mapping[tuple[float, Price | None], frozenset[int]]:
    """Numbers of the boxes of each size and price, in the order of the boxes."""
    alike: dict[tuple[float, Price | None], list[Box]] = {}
    for box in bulk.boxes:
        alike.setdefault((box.size_m, box.price), []).append(box)
    return {kind: frozenset(box.number for box in boxes) for kind, boxes in alike.items()}


def _kind(bulk: Bulk) -> tuple[Cell, ...]:
    return ("box", bulk.category, screen(bulk.screened), None, None)


def _money(price: Price | None, order: int) -> tuple[Cell, ...]:
    """Price of one, its currency, and what they cost together."""
    return (None, None, None) if price is None else (price.amount, price.currency, price.amount * order)
