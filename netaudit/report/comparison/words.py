"""What a second bill orders more or less than a first, in one sentence and in the words of its parts."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from netaudit.model.comparison import Comparison, Difference
from netaudit.model.goods import What
from netaudit.report.columns import one_line
from netaudit.report.goods_words import amount_text, one_or_many
from netaudit.report.words import listed

KINDS_AT_MOST = 4
"""Kinds of goods that the sentence tells; the table has them all."""


def sentence(comparison: Comparison) -> str:
    """The answer: what the second plan needs more or less than the first, and what that costs."""
    after, before = one_line(comparison.after), one_line(comparison.before)
    if not comparison.differences:
        needs = f"{after} needs the same as {before}"
    else:
        kinds = _kinds(comparison)
        told = [*kinds[:KINDS_AT_MOST], "more"] if len(kinds) > KINDS_AT_MOST else kinds
        needs = f"{after} needs {listed(told)} than {before}"
    return f"{needs}{_cost(comparison)}."


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
    return f"; what has a price {costs}, and {gaps}" if gaps else f", and {costs}"


def total_text(apart: Decimal, currency: str) -> str | None:
    """How much more or less something costs, `41.20 EUR more`; None for nothing."""
    if not apart:
        return None
    return f"{amount_text(abs(apart), currency)} {'more' if apart > 0 else 'less'}"


def unpriced_text(comparison: Comparison) -> str:
    """Rows without a price of either plan; empty where all have one."""
    return " and ".join(_unpriced(comparison))


def _unpriced(comparison: Comparison) -> Iterator[str]:
    for file, count in zip((comparison.before, comparison.after), comparison.unpriced, strict=True):
        if count:
            yield f"{'1 row' if count == 1 else f'{count} rows'} of {one_line(file)} {_verb(count)} no price"


def _verb(count: int) -> str:
    return "has" if count == 1 else "have"


def more_text(difference: Difference) -> str:
    """How many more or less of some goods are ordered."""
    return f"{difference.more} more" if difference.more > 0 else f"{-difference.more} less"


def apart_text(difference: Difference) -> str:
    """What that costs; never a number where the price of one is not known."""
    if difference.price is None:
        return "no price"
    return total_text(difference.price.amount * difference.more, difference.price.currency) or "nothing"
