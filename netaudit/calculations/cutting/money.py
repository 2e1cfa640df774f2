"""Decimal prices as whole numbers and back, without loss."""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import Decimal


class Money:
    """The largest amount of which all prices are multiples, as the unit of cost."""

    def __init__(self, prices: Sequence[Decimal]) -> None:
        self._places = max(map(places, prices), default=0)
        self._unit = math.gcd(*map(self._fine, prices)) or 1

    def _fine(self, price: Decimal) -> int:
        above, below = price.as_integer_ratio()
        return int(above * 10**self._places // below)

    def cost(self, price: Decimal) -> int:
        """A price in units."""
        return self._fine(price) // self._unit

    def price(self, cost: int) -> Decimal:
        """A price of so many units."""
        digits = tuple(map(int, str(cost * self._unit)))
        return Decimal((0, digits, -self._places))


def places(price: Decimal) -> int:
    """Decimal places that a price is written with."""
    exponent = price.as_tuple().exponent
    return max(-exponent, 0) if isinstance(exponent, int) else 0
