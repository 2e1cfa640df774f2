"""Two bills side by side: what more, what less, at what price."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, NamedTuple

from netaudit.model.goods import Goods
from netaudit.model.plan import Price


class Difference(NamedTuple):
    """One kind of goods in two bills, spares included."""

    section: Literal["cables", "boxes", "modules", "parts"]
    goods: Goods
    before: int
    """How many the first bill orders."""
    after: int
    """How many the second one orders."""
    price: Price | None
    """Price of one; None where neither bill has it, or where they disagree."""

    @property
    def more(self) -> int:
        """How many more the second bill orders; less where it is negative."""
        return self.after - self.before


class TotalDifference(NamedTuple):
    """What two bills come to in one currency."""

    currency: str
    before: Decimal
    after: Decimal


class Comparison(NamedTuple):
    """A second bill held against a first one."""

    before: str
    """The first plan's file."""
    after: str
    """The second plan's file."""
    differences: tuple[Difference, ...]
    """Only what differs, in the order of the bill."""
    same: int
    """Rows on which both agree."""
    totals: tuple[TotalDifference, ...]
    unpriced: tuple[int, int]
    """Rows without a price, in the first bill and in the second."""
    open: tuple[str, ...]
    """What the numbers of either plan leave open, a sentence each: cables to measure or to identify, runs longer
    than any box, cages whose module nobody has named, and rows with more than one price."""
