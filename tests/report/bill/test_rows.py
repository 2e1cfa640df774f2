"""What is ordered, row by row."""

from __future__ import annotations

from dataclasses import replace

from bills import UNMEASURED_WALLS, WALLS, empty_bill, full_bill

from netaudit.model.goods import Item
from netaudit.report.bill.rows import Open, groups


def boxes(*accepted: str) -> list[Item | Open]:
    """The rows of boxes of a plan whose cables stand in an order."""
    row = full_bill().accept[0]
    bill = replace(
        empty_bill(), bulk=(WALLS, UNMEASURED_WALLS), accept=tuple(row._replace(cable=name) for name in accepted)
    )
    return list(groups(bill)[1].rows)


def test_every_row_stands_in_the_group_of_its_sort() -> None:
    bill = full_bill()
    cords, _, modules, parts = groups(bill)

    assert [bill.buy, bill.modules, bill.parts] == [cords.rows, modules.rows, parts.rows]
    assert ["Cords and cables", "Boxes of cable", "Modules", "Parts"] == [group.title for group in groups(bill)]


def test_boxes_serve_their_cables_in_plan_order_and_not_in_that_of_the_cuts() -> None:
    cut, planned = ("W02", "-1+1", "W03"), ("W03", "-1+1", "W02")

    assert [cut, planned] == [boxes()[0].serves, boxes("C01", "W04", *planned)[0].serves]


def test_behind_the_boxes_of_each_kind_stands_what_none_of_them_counts() -> None:
    expected = [2, 1, "open", "open"]

    assert expected == ["open" if isinstance(row, Open) else row.order for row in boxes()]
    assert [WALLS.uncounted, UNMEASURED_WALLS.uncounted] == [row.serves for row in boxes() if isinstance(row, Open)]
