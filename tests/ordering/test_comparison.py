"""Two bills side by side."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from bills import CORD, MODULE, PANEL, TWINAX, WALLS, bills, empty_bill, euros, full_bill
from hypothesis import given, settings

from netaudit.model.bill import Bill, Box, Cut
from netaudit.model.comparison import Comparison, Difference, TotalDifference
from netaudit.model.goods import Goods, Total
from netaudit.model.place import PortRef
from netaudit.ordering.comparison import SECTIONS, compare
from netaudit.ordering.shop.totals import totals

BOX = Goods("box", category="6A", screened=False, length_m=304.8)


def bill_of(**sections: object) -> Bill:
    """An otherwise empty bill with right totals."""
    bill = replace(empty_bill(), **sections)
    found, unpriced = totals((*bill.buy, *bill.modules, *bill.parts), bill.bulk)
    return replace(bill, totals=found, unpriced=unpriced)


def test_more_and_less_are_counted_with_spares() -> None:
    before = bill_of(file="a.yaml", buy=(CORD, TWINAX))
    after = bill_of(file="b.yaml", buy=(TWINAX, CORD._replace(quantity=11, spares=2)), modules=(MODULE,))

    found = compare(before, after)

    assert (
        Difference("cables", CORD.goods, 5, 13, euros("7.20")),
        Difference("modules", MODULE.goods, 0, 3, euros("27.5")),
    ) == found.differences
    assert [8, 3] == [one.more for one in found.differences]
    assert 1 == found.same
    assert ("a.yaml", "b.yaml") == (found.before, found.after)


def test_totals_are_compared_in_each_currency_by_itself() -> None:
    before, after = bill_of(buy=(CORD,)), bill_of(buy=(TWINAX,), parts=(PANEL,))

    found = compare(before, after)

    assert (
        TotalDifference("EUR", Decimal("36.00"), Decimal(0)),
        TotalDifference("GBP", Decimal(0), Decimal(57)),
    ) == found.totals
    assert (0, 1) == found.unpriced


def test_the_same_goods_in_two_sections_are_two_rows() -> None:
    found = compare(bill_of(buy=(CORD,)), bill_of(parts=(CORD,)))

    assert [("cables", 5, 0), ("parts", 0, 5)] == [(one.section, one.before, one.after) for one in found.differences]


def test_rows_of_one_bill_with_the_same_goods_are_counted_together() -> None:
    found = compare(bill_of(buy=(CORD, CORD)), bill_of(buy=(CORD._replace(quantity=8, spares=2),)))

    assert ((), 1) == (found.differences, found.same)


def test_boxes_are_compared_by_kind_and_size() -> None:
    smaller = WALLS._replace(boxes=(Box(1, 304.8, 200.0, euros("129.90")),), cuts=(Cut(1, "W02", 41.0, 40.0, 263.8),))

    found = compare(bill_of(bulk=(WALLS,)), bill_of(bulk=(smaller,)))

    assert (
        Difference("boxes", BOX, 2, 1, euros("129.90")),
        Difference("boxes", BOX._replace(length_m=100.0), 1, 0, euros("49")),
    ) == found.differences


def test_a_price_that_one_bill_knows_is_the_price_and_two_prices_are_none() -> None:
    more = CORD._replace(quantity=9)
    alone = compare(bill_of(buy=(CORD._replace(price=None),)), bill_of(buy=(more,)))
    unlike = compare(bill_of(buy=(CORD._replace(price=euros("8")),)), bill_of(buy=(more,)))
    unknown = compare(bill_of(buy=(CORD._replace(price=None),)), bill_of(buy=(more._replace(price=None),)))

    assert [euros("7.20"), None, None] == [one.differences[0].price for one in (alone, unlike, unknown)]


def test_goods_that_have_another_price_are_told_although_as_many_are_ordered() -> None:
    found = compare(
        bill_of(buy=(CORD,), parts=(PANEL,)), bill_of(buy=(CORD._replace(price=euros("8")),), parts=(PANEL,))
    )

    assert ((), 2) == (found.differences, found.same)
    assert (
        "1 row has more than one price, so the totals differ by its prices as well as by what is ordered.",
    ) == found.open


def test_what_neither_number_counts_is_told_of_either_plan() -> None:
    before = bill_of(file="a.yaml", measure=("C09", "W01", "W04"), identify=("W04", "W12"), installed=("W01", "W12"))
    after = bill_of(file="b.yaml", bulk=(WALLS,), unnamed=(PortRef("core", "9"),))

    assert (
        "a.yaml: length not known, so counted without one and cut from no box: C09.",
        "a.yaml: category not known, so nothing is ordered: W04.",
        "b.yaml: module not named, so none is ordered: core/9.",
        "b.yaml: longer than any box, so cut from none: W10.",
    ) == compare(before, after).open


def test_differences_are_in_the_order_of_the_bill() -> None:
    sections = [one.section for one in compare(bill_of(parts=(MODULE,)), full_bill()).differences]

    assert sorted(sections, key=SECTIONS.index) == sections
    assert set(SECTIONS) == set(sections)


def counts(found: Comparison) -> dict[tuple[str, Goods], tuple[int, int]]:
    return {(one.section, one.goods): (one.before, one.after) for one in found.differences}


@settings(max_examples=40, deadline=None)
@given(bill=bills())
def test_a_bill_does_not_differ_from_itself(bill: Bill) -> None:
    found = compare(bill, bill)

    assert () == found.differences
    assert all(one.before == one.after for one in found.totals)


@settings(max_examples=60, deadline=None)
@given(before=bills(), after=bills())
def test_the_other_way_round_more_is_less(before: Bill, after: Bill) -> None:
    there, back = compare(before, after), compare(after, before)

    assert counts(there) == {key: (one, other) for key, (other, one) in counts(back).items()}
    assert {one.goods: one.price for one in there.differences} == {one.goods: one.price for one in back.differences}
    assert there.same == back.same
    assert {one.currency: (one.before, one.after) for one in there.totals} == {
        one.currency: (one.after, one.before) for one in back.totals
    }
    assert there.unpriced == back.unpriced[::-1]
    assert set(there.open) == set(back.open)


@settings(max_examples=60, deadline=None)
@given(before=bills(), after=bills())
def test_what_differs_adds_up_to_what_the_bills_order(before: Bill, after: Bill) -> None:
    def ordered(bill: Bill) -> int:
        items = (*bill.buy, *bill.modules, *bill.parts)
        return sum(item.order for item in items) + sum(len(bulk.boxes) for bulk in bill.bulk)

    found = compare(before, after)

    assert ordered(after) - ordered(before) == sum(one.more for one in found.differences)
    assert all(one.more for one in found.differences)


def test_the_currencies_of_both_are_told_once_each() -> None:
    before = replace(empty_bill(), totals=(Total("EUR", Decimal(5), 1), Total("GBP", Decimal(1), 1)))
    after = replace(empty_bill(), totals=(Total("CHF", Decimal(2), 1), Total("EUR", Decimal(7), 2)))

    assert ["EUR", "GBP", "CHF"] == [one.currency for one in compare(before, after).totals]
