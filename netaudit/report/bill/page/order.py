"""What the page says of the order: rows to tick, what to find out first, lengths, switches to choose, ports left."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from netaudit.model.bill import Bill, FreePorts, RunLength
from netaudit.model.goods import Item
from netaudit.model.place import PortRef
from netaudit.model.specification import Specification
from netaudit.report.bill.bulk_words import open_text
from netaudit.report.bill.page.ends import NOWHERE, Ends
from netaudit.report.bill.rows import Open, groups
from netaudit.report.bill.unbroken import unbroken
from netaudit.report.bill.words import demands, free_kind, port_kind
from netaudit.report.goods_words import price_text, total_text
from netaudit.units import length_text


class OrderRow(NamedTuple):
    """Something to order."""

    order: str
    """How many, spares included; `open` where no box is counted."""
    what: str
    spares: str
    price: str
    cost: str
    serves: tuple[str, ...]


class OrderGroup(NamedTuple):
    """Rows of one sort."""

    title: str
    rows: tuple[OrderRow, ...]


class OrderPart(NamedTuple):
    """Everything to order, what it comes to, and what is not bought."""

    groups: tuple[OrderGroup, ...]
    priced: bool
    """Whether any row has a price."""
    total: str
    installed: tuple[str, ...]
    owned: tuple[str, ...]


class Missing(NamedTuple):
    """A cable of which somebody has to find something out."""

    cable: str
    there: bool
    """Whether the cable is there, so that its jacket can be read."""
    ends: Ends


class MissingPart(NamedTuple):
    """What to find out before anything is ordered, and what to know."""

    measure: tuple[Missing, ...]
    identify: tuple[Missing, ...]
    unnamed: tuple[PortRef, ...]
    """Cages whose module nobody has named."""
    remarks: tuple[str, ...]


class SpecificationPart(NamedTuple):
    """A switch to choose."""

    device: str
    needs: tuple[tuple[int, str, tuple[PortRef, ...]], ...]
    """How many ports, of what kind, and for which of the plan."""
    facts: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]


def order_part(bill: Bill) -> OrderPart:
    """All that is to be ordered; the page shows it even where there is nothing."""
    every = (OrderGroup(group.title, tuple(map(_order_row, group.rows))) for group in groups(bill))
    filled = tuple(group for group in every if group.rows)
    priced = any(row.price for group in filled for row in group.rows)
    return OrderPart(
        filled, priced, total_text(bill.totals, bill.unpriced, complete=bill.complete), bill.installed, bill.owned
    )


def _order_row(row: Item | Open) -> OrderRow:
    if isinstance(row, Open):
        return OrderRow("open", open_text(row.bulk), "", "", "", row.serves)
    prices = (price_text(row.price), price_text(row.cost))
    return OrderRow(f"{row.order:,}", unbroken(row.goods.text), f"{row.spares:,}", *prices, row.serves)


def missing_part(bill: Bill, ends: Mapping[str, Ends]) -> MissingPart:
    """Cables to measure and to identify, with their ends, so that people find them, and cages without a module."""
    there = bill.there

    def rows(names: Iterable[str]) -> tuple[Missing, ...]:
        return tuple(Missing(name, name in there, ends.get(name, NOWHERE)) for name in names)

    return MissingPart(rows(bill.measure), rows(bill.identify), bill.unnamed, bill.remarks)


def length_rows(lengths: Iterable[RunLength]) -> Iterator[tuple[str, str, str]]:
    """Cable, length, and how it came about."""
    return ((run.cable, length_text(run.length_m), run.how) for run in lengths)


def free_rows(rows: Iterable[FreePorts]) -> Iterator[tuple[str, int, int, str, str]]:
    """Device, ports free, of how many, connector, rate."""
    return ((row.device, row.free, row.of, *free_kind(row)) for row in rows)


def specification_parts(wanted: Sequence[Specification]) -> Iterator[SpecificationPart]:
    """What to look for in each switch that is not chosen yet."""
    for one in wanted:
        needs = tuple((need.quantity, port_kind(need), need.ports) for need in one.needs)
        yield SpecificationPart(one.device, needs, tuple(demands(one)), one.notes)
