"""The answer of two bills side by side."""

from __future__ import annotations

from decimal import Decimal

import pytest

from netaudit.model.comparison import Comparison, Difference, TotalDifference
from netaudit.model.goods import Goods
from netaudit.report.comparison.words import sentence


def test_the_answer_tells_what_more_what_less_and_the_price(comparison: Comparison) -> None:
    assert "bigger.yaml needs 3 more cords and 1 box less than small.yaml, and costs 41.20 EUR more." == sentence(
        comparison
    )


def test_a_price_is_never_invented(comparison: Comparison, unpriced: Comparison) -> None:
    assert [
        "bigger.yaml needs 3 more cords and 1 box less than small.yaml; no prices were given.",
        "big\\x1b[31m ger.yaml needs 3 more cords, 1 box less and 3 more modules than small.yaml; what has a price costs "
        "41.20 EUR more and 15.00 CHF less, and 1 row of small.yaml has no price and 2 rows of "
        "big\\x1b[31m ger.yaml have no price.",
    ] == [sentence(comparison._replace(totals=(), unpriced=(7, 8))), sentence(unpriced)]


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [("300", "300", "and costs the same"), ("300", "299.5", "and costs 0.50 EUR less"), ("0", "1234.5", "and costs 1,234.50 EUR more")],
)  # fmt: skip
def test_two_plans_that_need_the_same_may_cost_differently(
    before: str, after: str, expected: str, comparison: Comparison
) -> None:
    totals = (TotalDifference("EUR", Decimal(before), Decimal(after)),)

    assert f"bigger.yaml needs the same as small.yaml, {expected}." == sentence(
        comparison._replace(differences=(), totals=totals)
    )


def test_as_many_of_a_kind_but_not_the_same_ones_are_other_ones(comparison: Comparison) -> None:
    short = Difference("cables", Goods("cord", length_m=1.0), 3, 2, None)
    long = Difference("cables", Goods("cord", length_m=2.0), 0, 1, None)

    assert "bigger.yaml needs other cords than small.yaml; no prices were given." == sentence(
        comparison._replace(differences=(short, long), totals=())
    )


def test_of_many_kinds_the_first_are_told(comparison: Comparison) -> None:
    kinds = ("cord", "twinax", "box", "module", "jack", "panel")
    differences = tuple(Difference("cables", Goods(what), 0, 2, None) for what in kinds)  # type: ignore[arg-type]

    assert (
        "bigger.yaml needs 2 more cords, 2 more twinax cables, 2 more boxes, 2 more modules and more than small.yaml; "
        "no prices were given."
    ) == sentence(comparison._replace(differences=differences, totals=()))
