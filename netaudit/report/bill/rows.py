"""What is ordered, row by row, as every form tells it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.model.bill import Bill, Bulk
from netaudit.model.goods import Item


class Open(NamedTuple):
    """Runs of one kind of cable for which no box is counted."""

    bulk: Bulk
    serves: tuple[str, ...]


class Group(NamedTuple):
    """Rows of one sort."""

    title: str
    rows: tuple[Item | Open, ...]


def groups(bill: Bill) -> tuple[Group, ...]:
    """All rows, sort by sort."""
    return (
        Group("Cords and cables", bill.buy),
        Group("Boxes of cable", tuple(_boxes(bill))),
        Group("Modules", bill.modules),
        Group("Parts", bill.parts),
    )


def _boxes(bill: Bill) -> Iterator[Item | Open]:
    """Boxes, a row for each size and price with its cables in plan order, and behind each kind what no box counts."""
    place = {row.cable: number for number, row in enumerate(bill.accept)}
    for bulk in bill.bulk:
        for item in bulk.items:
            yield item._replace(serves=tuple(sorted(item.serves, key=lambda name: place.get(name, len(place)))))
        if bulk.uncounted:
            yield Open(bulk, bulk.uncounted)
