"""Two bills side by side as plain text: stable, unwrapped, without colour."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.comparison import Comparison, Difference, TotalDifference
from netaudit.report.columns import aligned, one_line
from netaudit.report.comparison.words import apart_text, more_text, sentence, total_text, unpriced_text
from netaudit.report.goods_words import amount_text, price_text

HEAD = ("what, spares included", "before", "after", "difference", "price of one", "costs")


def plain(comparison: Comparison) -> str:
    """The whole comparison; ends with a line feed."""
    return "".join(f"{line}\n" for line in _lines(comparison))


def _lines(comparison: Comparison) -> Iterator[str]:
    yield sentence(comparison)
    yield ""
    yield f"Before: {one_line(comparison.before)}. After: {one_line(comparison.after)}."
    if comparison.differences:
        yield ""
        yield "What differs"
        rows = [HEAD, *map(_row, comparison.differences)]
        yield from (f"  {line}" for line in aligned(rows))
    yield ""
    yield f"{'1 row is' if comparison.same == 1 else f'{comparison.same} rows are'} the same in both."
    yield from _totals(comparison)
    if comparison.open:
        yield ""
        yield "What neither number counts"
        yield from (f"  {one_line(each)}" for each in comparison.open)


def _row(difference: Difference) -> tuple[str, ...]:
    return (
        one_line(difference.goods.text),
        str(difference.before),
        str(difference.after),
        more_text(difference),
        price_text(difference.price),
        apart_text(difference),
    )


def _totals(comparison: Comparison) -> Iterator[str]:
    """A line for each currency, and how much has no price."""
    yield ""
    if not comparison.totals:
        yield "No prices were given, so there is no total."
        return
    yield "In all"
    yield from (f"  {line}" for line in aligned([("before", "after", "costs"), *map(_total, comparison.totals)]))
    gaps = unpriced_text(comparison)
    if gaps:
        yield f"  These sums leave out what has no price: {gaps}."


def _total(total: TotalDifference) -> tuple[str, ...]:
    return (
        amount_text(total.before, total.currency),
        amount_text(total.after, total.currency),
        total_text(total.after - total.before, total.currency) or "the same",
    )
