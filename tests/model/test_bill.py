"""The bill: what the boxes of one kind of cable are and cost, and what stays over."""

from __future__ import annotations

from decimal import Decimal

import pytest
from bills import bills
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.model.bill import Bill, Box, Bulk, Cut, Surplus
from netaudit.model.goods import Goods, Item
from netaudit.model.plan import Price

EUR = Price(Decimal("168.00"), "EUR")
FRANCS = Price(Decimal("150.00"), "CHF")


def bulk_of(*prices: Price | None) -> Bulk:
    """A kind of cable with a box for each price."""
    boxes = tuple(Box(number, 304.8, 10.0, price) for number, price in enumerate(prices, start=1))
    return Bulk(
        category="6A",
        screened=False,
        boxes=boxes,
        cuts=(),
        objective="fewest boxes",
        lower_bound=len(boxes),
        price_bound=None,
        proved_optimal=True,
    )


def test_boxes_cost_what_they_cost_together() -> None:
    assert Price(Decimal("336.00"), "EUR") == bulk_of(EUR, EUR).cost


@pytest.mark.parametrize("prices", [(), (None,), (EUR, None), (EUR, FRANCS)])
def test_a_missing_price_or_two_currencies_make_no_sum(prices: tuple[Price | None, ...]) -> None:
    assert None is bulk_of(*prices).cost


def boxes_of(*boxes: tuple[float, float]) -> Bulk:
    """Boxes, each with its size and what is left in it [m]."""
    made = tuple(Box(number, size_m, left_m) for number, (size_m, left_m) in enumerate(boxes, start=1))
    return bulk_of()._replace(boxes=made)


@pytest.mark.parametrize(
    ("boxes", "expected"),
    [
        ([(304.8, 278.0)], Surplus(304.8, 278.0, 50.0)),
        ([(304.8, 10.0), (304.8, 200.0)], Surplus(304.8, 200.0, 150.0)),
        ([(304.8, 254.8)], Surplus(304.8, 254.8, 50.0)),
        ([(304.8, 152.4)], None),
        ([(304.8, 10.0)], None),
        ([(100.0, 51.0)], Surplus(100.0, 51.0, 50.0)),
        ([(60.0, 50.0)], None),
        ([(304.8, 278.0), (100.0, 5.0)], None),
        ([], None),
    ],
)
def test_far_more_cable_over_than_used_is_a_surplus_with_a_shorter_box_that_would_do(
    boxes: list[tuple[float, float]], expected: Surplus | None
) -> None:
    assert expected == boxes_of(*boxes).surplus


@given(st.floats(1, 2000), st.floats(0, 1))
def test_the_shorter_box_holds_what_is_used_and_is_shorter(size_m: float, share: float) -> None:
    over = boxes_of((size_m, size_m * share)).surplus
    if over is not None:
        assert size_m * (1 - share) - 1e-3 <= over.enough_m < size_m


def test_boxes_of_one_size_and_price_are_a_row_with_all_that_is_cut_from_them() -> None:
    boxes = (Box(1, 304.8, 222.8, EUR), Box(2, 100.0, 9.7, EUR), Box(3, 304.8, 284.3, EUR), Box(4, 304.8, 0.0, FRANCS))
    cuts = (
        Cut(1, "W1", 41.0, 40.0, 263.8),
        Cut(1, "W2", 41.0, 40.0, 222.8),
        Cut(2, "W4", 90.3, 89.3, 9.7),
        Cut(3, "W3", 20.5, 19.5, 284.3),
    )
    box = Goods("box", category="6A", screened=False)

    assert (
        Item(box._replace(length_m=304.8), 2, 0, ("W1", "W2", "W3"), EUR),
        Item(box._replace(length_m=100.0), 1, 0, ("W4",), EUR),
        Item(box._replace(length_m=304.8), 1, 0, (), FRANCS),
    ) == bulk_of()._replace(boxes=boxes, cuts=cuts).items
    assert () == bulk_of().items
    assert box == bulk_of().kind


@settings(max_examples=60, deadline=None)
@given(bill=bills())
def test_every_box_and_every_cut_is_in_one_row(bill: Bill) -> None:
    for bulk in bill.bulk:
        rows = bulk.items
        assert len(bulk.boxes) == sum(row.quantity for row in rows)
        assert sorted(cut.cable for cut in bulk.cuts) == sorted(name for row in rows for name in row.serves)
        assert len(rows) == len({(row.goods, row.price) for row in rows})
        assert bulk.uncounted == (*bulk.unmeasured, *bulk.too_long)
