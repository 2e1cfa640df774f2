"""The answer of two bills side by side."""

from __future__ import annotations

from decimal import Decimal

import pytest

from netaudit.model.comparison import Comparison, Difference, TotalDifference
from netaudit.model.goods import Goods
from netaudit.model.plan import Price
from netaudit.report.comparison.words import apart_text, sentence


def test_the_answer_tells_what_more_what_less_and_the_price(comparison: Comparison) -> None:
    assert (
        "bigger.yaml needs 3 more cords and 1 box of cable less than small.yaml, and costs 41.20 EUR more."
        == sentence(comparison)
    )


def test_a_price_is_never_invented(comparison: Comparison, unpriced: Comparison) -> None:
    assert [
        "bigger.yaml needs 3 more cords and 1 box of cable less than small.yaml; no prices were given.",
        "big\\x1b[31m ger.yaml needs 3 more cords, 1 box of cable less and 3 more modules than small.yaml; what has a price costs "
        "41.20 EUR more and 15.00 CHF less, and 1 row of small.yaml and 2 rows of big\\x1b[31m ger.yaml have no price.",
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


def test_four_kinds_are_told_one_and_all(comparison: Comparison) -> None:
    kinds = ("cord", "box", "module", "jack")
    differences = tuple(Difference("cables", Goods(what), 0, 2, None) for what in kinds)  # type: ignore[arg-type]

    assert (
        "bigger.yaml needs 2 more cords, 2 more boxes of cable, 2 more modules and 2 more jacks than small.yaml; "
        "no prices were given."
    ) == sentence(comparison._replace(differences=differences, totals=()))


def test_of_many_kinds_the_first_are_told(comparison: Comparison) -> None:
    kinds = ("cord", "twinax", "box", "module", "jack", "panel")
    differences = tuple(Difference("cables", Goods(what), 0, 2, None) for what in kinds)  # type: ignore[arg-type]

    assert (
        "bigger.yaml needs 2 more cords, 2 more twinax cables, 2 more boxes of cable and 2 more modules than small.yaml "
        "and differs in 2 other kinds; no prices were given."
    ) == sentence(comparison._replace(differences=differences, totals=()))


@pytest.mark.parametrize(
    ("unpriced", "expected"),
    [
        ((0, 1), "what has a price costs 41.20 EUR more, and 1 row of bigger.yaml has no price"),
        ((6, 0), "what has a price costs 41.20 EUR more, and 6 rows of small.yaml have no price"),
        ((1, 6), "what has a price costs 41.20 EUR more, and 1 row of small.yaml and 6 rows of bigger.yaml have no price"),
        ((1, 1), "what has a price costs 41.20 EUR more, and 1 row of each have no price"),
        ((6, 6), "what has a price costs 41.20 EUR more, and 6 rows of each have no price"),
    ],
)  # fmt: skip
def test_rows_without_a_price_are_told_once(unpriced: tuple[int, int], expected: str, comparison: Comparison) -> None:
    assert f"; {expected}." in sentence(comparison._replace(unpriced=unpriced))


def test_one_kind_beyond_four_is_told_as_one(comparison: Comparison) -> None:
    kinds = ("cord", "twinax", "box", "module", "jack")
    differences = tuple(Difference("cables", Goods(what), 0, 2, None) for what in kinds)  # type: ignore[arg-type]

    assert "and differs in 1 other kind;" in sentence(comparison._replace(differences=differences, totals=()))


def test_a_price_of_what_is_not_wholly_counted_is_told_as_such(comparison: Comparison) -> None:
    found = sentence(comparison._replace(open=("small.yaml: category not known, so nothing is ordered: W04.",)))

    assert found.endswith("than small.yaml; what is counted costs 41.20 EUR more.")


def test_what_a_difference_costs_is_told_unless_nobody_knows_the_price_of_one(comparison: Comparison) -> None:
    cords, _, box = comparison.differences
    free = cords._replace(price=Price(Decimal(0), "EUR"))

    assert ["28.80 EUR more", "129.00 EUR less", "nothing", "no price"] == [
        apart_text(difference) for difference in (cords, box, free, cords._replace(price=None))
    ]
