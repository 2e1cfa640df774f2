"""The sheet of what to order; with prices filled in by hand it can be read back."""

from __future__ import annotations

from netaudit.model.bill import Bill
from netaudit.model.goods import Goods, Item
from netaudit.report.bill.rows import Open, groups
from netaudit.report.bill.sheet import Cell, Sheet
from netaudit.report.bill.sheets.cells import gauge, joined, numbers, screen, text
from netaudit.report.goods_values import rounded_m

COLUMNS = (
    *text("what", "category", "screened", "gauge", "ends"),
    *numbers("length [m]", "quantity", "spares", "order", "price"),
    *text("currency"),
    *numbers("sum"),
    *text("serves"),
)


def bill_sheet(bill: Bill) -> Sheet:
    """A row for each kind of goods; boxes of one size and price are one kind, and runs that no box counts another."""
    return Sheet("bill", "What to order", COLUMNS, tuple(_row(row) for group in groups(bill) for row in group.rows))


def _row(row: Item | Open) -> tuple[Cell, ...]:
    if isinstance(row, Open):
        return (*_goods(row.bulk.kind), None, None, None, None, None, None, joined(row.serves))
    return (*_goods(row.goods), row.quantity, row.spares, row.order, *_money(row), joined(row.serves))


def _goods(goods: Goods) -> tuple[Cell, ...]:
    """One kind of goods, with its length."""
    kind = (goods.name, goods.category, screen(goods.screened), gauge(goods.gauge_awg), goods.ends)
    return (*kind, rounded_m(goods.length_m))


def _money(item: Item) -> tuple[Cell, ...]:
    """Price of one, its currency, and what they cost together."""
    if item.price is None or item.cost is None:
        return (None, None, None)
    return (item.price.amount, item.price.currency, item.cost.amount)
