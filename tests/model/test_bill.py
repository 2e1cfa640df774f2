"""The bill: what the boxes of one kind of cable cost."""

from __future__ import annotations

from decimal import Decimal

import pytest

from netaudit.model.bill import Box, Bulk
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
