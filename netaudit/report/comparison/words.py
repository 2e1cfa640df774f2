"""What a second bill orders more or less than a first, in one sentence and in the words of its parts."""

from __future__ import annotations

from decimal import Decimal

from netaudit.listing import listed
from netaudit.model.comparison import Comparison, Difference
from netaudit.model.goods import What
from netaudit.report.columns import one_line
from netaudit.report.goods_words import amount_text, one_or_many

KINDS_AT_MOST = 4
"""Kinds of goods that the sentence tells; the table has them all."""


def sentence(comparison: Comparison) -> str:
    """The answer: what the second plan needs more or less than the first, and what that costs."""
    after, before = one_line(comparison.after), one_line(comparison.before)
    if not comparison.differences:
        return f"{after} needs the same as {before}{_cost(comparison)}."
    kinds = _kinds(comparison)
    others = len(kinds) - KINDS_AT_MOST
    more = f" and differs in {others} other {'kind' if others == 1 else 'kinds'}" if others > 0 else ""
    return f"{after} needs {listed(kinds[:KINDS_AT_MOST])} than {before}{more}{_cost(comparison)}."


def _kinds(comparison: Comparison) -> list[str]:
    """Each kind of goods with how many more or less of it are ordered, in the order of the bill."""
    more: dict[What, int] = {}
    for difference in comparison.differences:
        what = difference.goods.what
        more[what] = more.get(what, 0) + difference.more
    return [_kind(what, count) for what, count in more.items()]


def _kind(what: What, more: int) -> str:
    """How many more of a kind; as many, but not the same ones, where more and less are equal."""
    goods = one_or_many(what, abs(more))
    if not more:
        return f"other {goods.removeprefix('other ')}"
    return f"{more} more {goods}" if more > 0 else f"{-more} {goods} less"


def _cost(comparison: Comparison) -> str:
    """What the difference costs, as far as prices are known."""
    if not comparison.totals:
        return "; no prices were given"
    apart = [total_text(total.after - total.before, total.currency) for total in comparison.totals]
    changed = [text for text in apart if text is not None]
    costs = f"costs {listed(changed) if changed else 'the same'}"
    gaps = unpriced_text(comparison)
    if gaps:
        return f"; what has a price {costs}, and {gaps} {'has' if sum(comparison.unpriced) == 1 else 'have'} no price"
    return f"; what is counted {costs}" if comparison.open else f", and {costs}"


def total_text(apart: Decimal, currency: str) -> str | None:
    """How much more or less something costs, `41.20 EUR more`; None for nothing."""
    if not apart:
        return None
    return f"{amount_text(abs(apart), currency)} {'more' if apart > 0 else 'less'}"


def unpriced_text(comparison: Comparison) -> str:
    """Rows without a price of either plan, as `1 row of a.yaml and 6 rows of b.yaml`; empty where all have one."""
    before, after = comparison.unpriced
    if before and before == after:
        return f"{_rows(before)} of each"
    files = (one_line(comparison.before), one_line(comparison.after))
    return listed([f"{_rows(count)} of {file}" for count, file in zip((before, after), files, strict=True) if count])


def _rows(count: int) -> str:
    return "1 row" if count == 1 else f"{count} rows"


def more_text(difference: Difference) -> str:
    """How many more or less of some goods are ordered."""
    return f"{difference.more} more" if difference.more > 0 else f"{-difference.more} less"


def apart_text(difference: Difference) -> str:
    """What that costs; never a number where the price of one is not known."""
    if difference.price is None:
        return "no price"
    return total_text(difference.price.amount * difference.more, difference.price.currency) or "nothing"
