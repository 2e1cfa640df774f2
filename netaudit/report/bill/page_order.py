"""What the page says of the order: rows to tick, what to find out first, lengths, switches to choose, ports left."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from itertools import groupby
from typing import Literal, NamedTuple

from netaudit.model.bill import Bill, Box, Bulk, FreePorts, PortNeed, RunLength, Specification
from netaudit.model.goods import Item
from netaudit.model.moving import Acceptance
from netaudit.model.place import PortRef
from netaudit.report.bill.sections import kind
from netaudit.report.goods_words import price_text, total_text
from netaudit.units import both_rates_text, length_text, number_text

_UNIT = re.compile(r"(?<=[0-9]) (?=(?:m|km|AWG)\b)")
Ends = Mapping[str, Acceptance]
"""Cables to the row that knows their two ends."""


class OrderRow(NamedTuple):
    """Something to order."""

    order: str
    """How many, spares included; `open` where that follows from lengths that nobody knows yet."""
    what: str
    spares: int
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
    """Something that nobody knows about a cable, and that somebody has to find out."""

    kind: Literal["length", "category"]
    cable: str
    there: bool
    """Whether the cable is there, so that its jacket can be read."""
    near: PortRef | None
    far: tuple[PortRef, ...]


class MissingPart(NamedTuple):
    """What to find out before anything is ordered, and what to know."""

    measure: tuple[Missing, ...]
    identify: tuple[Missing, ...]
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
    groups = (
        OrderGroup("Cords and cables", tuple(map(_order_row, bill.buy))),
        OrderGroup("Boxes of cable", tuple(row for bulk in bill.bulk for row in _box_rows(bulk))),
        OrderGroup("Modules", tuple(map(_order_row, bill.modules))),
        OrderGroup("Parts", tuple(map(_order_row, bill.parts))),
    )
    filled = tuple(group for group in groups if group.rows)
    priced = any(row.price for group in filled for row in group.rows)
    return OrderPart(filled, priced, total_text(bill.totals, bill.unpriced), bill.installed, bill.owned)


def _order_row(item: Item) -> OrderRow:
    prices = (price_text(item.price), price_text(item.cost))
    return OrderRow(f"{item.order:,}", _unbroken(item.goods.text), item.spares, *prices, item.serves)


def _box_rows(bulk: Bulk) -> Iterator[OrderRow]:
    """A row for each size of box at each price, the largest first, and one for what is not measured."""
    ordered = sorted(bulk.boxes, key=_size_and_price)
    for (size_m, price), boxes in groupby(ordered, key=lambda box: (box.size_m, box.price)):
        numbers = {box.number for box in boxes}
        serves = tuple(cut.cable for cut in bulk.cuts if cut.box in numbers)
        cost = None if price is None else price._replace(amount=price.amount * len(numbers))
        what = _unbroken(f"box of cable {kind(bulk)}, {length_text(size_m)}")
        yield OrderRow(f"{len(numbers):,}", what, 0, price_text(price), price_text(cost), serves)
    if bulk.unmeasured:
        yield OrderRow("open", f"cable {kind(bulk)}, for runs to be measured", 0, "", "", bulk.unmeasured)


def _unbroken(what: str) -> str:
    """Goods in words, each number kept on one line with its unit."""
    return _UNIT.sub("\N{NO-BREAK SPACE}", what)


def _size_and_price(box: Box) -> tuple[float, str, Decimal]:
    return (-box.size_m, "", Decimal(0)) if box.price is None else (-box.size_m, box.price.currency, box.price.amount)


def missing_rows(bill: Bill, ends: Ends) -> MissingPart:
    """Cables to measure and to identify, with their ends, so that people find them."""
    there = {*bill.installed, *bill.owned}

    def rows(kind: Literal["length", "category"], names: Iterable[str]) -> tuple[Missing, ...]:
        return tuple(Missing(kind, name, name in there, *_ends(ends.get(name))) for name in names)

    return MissingPart(rows("length", bill.measure), rows("category", bill.identify), bill.remarks)


def _ends(row: Acceptance | None) -> tuple[PortRef | None, tuple[PortRef, ...]]:
    return (None, ()) if row is None else (row.from_port, row.to_ports)


def length_rows(lengths: Iterable[RunLength]) -> Iterator[tuple[str, str, str]]:
    """Cable, length, and how it came about."""
    return ((run.cable, length_text(run.length_m), run.how) for run in lengths)


def free_rows(rows: Iterable[FreePorts]) -> Iterator[tuple[str, int, int, str, str]]:
    """Device, ports free, of how many, connector, rate."""
    for row in rows:
        rate = "" if row.rate_bit_per_s is None else both_rates_text(row.rate_bit_per_s)
        yield row.device, row.free, row.of, row.connector or "not known", rate


def specification_parts(wanted: Sequence[Specification]) -> Iterator[SpecificationPart]:
    """What to look for in each switch that is not chosen yet."""
    for one in wanted:
        needs = tuple((need.quantity, _port_text(need), need.ports) for need in one.needs)
        yield SpecificationPart(one.device, needs, tuple(_facts(one)), one.notes)


def _port_text(need: PortNeed) -> str:
    rate = "rate not known" if need.rate_bit_per_s is None else both_rates_text(need.rate_bit_per_s)
    return f"{need.connector or 'connector not known'}, {rate}"


def _facts(wanted: Specification) -> Iterator[tuple[str, str]]:
    if wanted.packet_octets is not None:
        yield "largest packet", f"at least {wanted.packet_octets} octets"
    if wanted.bonds:
        yield "bonds to terminate", str(wanted.bonds)
    if wanted.vlans:
        yield "VLANs to tell apart", ", ".join(map(str, wanted.vlans))
    if wanted.spanning_tree:
        yield "spanning tree", "needed, because it stands in a ring"
    if wanted.watts is not None:
        yield "power", f"at most {number_text(wanted.watts)} W"
