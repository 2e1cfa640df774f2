"""Two bills side by side."""

from __future__ import annotations

from decimal import Decimal

import pytest

from netaudit.model.comparison import Comparison, Difference, TotalDifference
from netaudit.model.goods import Goods
from netaudit.model.plan import Price


def euros(amount: str) -> Price:
    """A price in euros."""
    return Price(Decimal(amount), "EUR")


CORDS = Difference("cables", Goods("cord", None, "6A", False, 26, None, 3.0), 4, 8, euros("7.20"))
LONG_CORDS = Difference("cables", Goods("cord", None, "6A", False, 26, None, 0.1 + 0.2), 2, 1, euros("9.10"))
BOX = Difference("boxes", Goods("box", None, "6A", False, length_m=304.8), 2, 1, euros("129"))
MODULE = Difference("modules", Goods("module", "10GBASE-SR", ends="lc"), 0, 3, None)


@pytest.fixture
def comparison() -> Comparison:
    """A larger plan that needs less cable in the walls."""
    return Comparison(
        before="small.yaml",
        after="bigger.yaml",
        differences=(CORDS, LONG_CORDS, BOX),
        same=5,
        totals=(TotalDifference("EUR", Decimal("300.00"), Decimal("341.2")),),
        unpriced=(0, 0),
        open=(),
    )


@pytest.fixture
def unpriced(comparison: Comparison) -> Comparison:
    """The same with a module that nobody has a price for, in two currencies, with a hostile file name."""
    return comparison._replace(
        after="big\x1b[31m\nger.yaml",
        differences=(*comparison.differences, MODULE),
        totals=(
            *comparison.totals,
            TotalDifference("CHF", Decimal(20), Decimal(5)),
            TotalDifference("GBP", Decimal(1), Decimal(1)),
        ),
        unpriced=(1, 2),
        open=("small.yaml: length not known: C09.",),
    )
