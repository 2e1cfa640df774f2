"""A price list in CSV: what can be bought, in which size, for how much."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from typing import get_args

from netaudit.model.plan import Price, StockItem
from netaudit.model.vocabulary import Category
from netaudit.plan.scalars.counts import gauge_awg, price
from netaudit.plan.scalars.quantities import length_m
from netaudit.plan.scalars.text import name, quoted
from netaudit.plan.shapes.forms import words
from netaudit.plan.sheets.cells import Cells, read_rows
from netaudit.plan.sheets.marks import with_certain_point, with_point
from netaudit.plan.sheets.table import Wanted

COLUMNS = Wanted(("what", "price"), ("category", "screened", "gauge", "length", "currency"))
"""The columns of a price list; a bill's own sheet has them too, so that it comes back with its prices filled in."""
ANSWERS = {"yes": True, "true": True, "no": False, "false": False}

_category: Callable[[str], Category] = words("a category", get_args(Category)).parse
_ENDS_IN_WORD = re.compile(r"[^\W\d_]{3}$")


def read_prices(path: str | os.PathLike[str]) -> tuple[StockItem, ...]:
    """The rows of a price list that have a price.

    Raises InputError with every problem of the file, in file order, where there is any.
    """
    return read_rows(path, COLUMNS, _item)


def _item(cells: Cells) -> StockItem | None:
    """One row; None where nobody has filled in its price."""
    if not cells.text("price"):
        return None
    what = cells.asked("what", lambda: name(cells.text("what")))
    return StockItem(
        what=what or "",
        category=cells.value("category", lambda text: _category(with_point(text, cells.separator))),
        screened=cells.value("screened", _answer),
        cord_awg=cells.value("gauge", gauge_awg),
        length_m=cells.value("length", lambda text: _length_m(text, cells)),
        price=cells.value("price", lambda text: _price(text, cells)),
    )


def _answer(text: str) -> bool:
    answer = ANSWERS.get(text.casefold())
    if answer is None:
        raise ValueError(f"{quoted(text)} is neither yes nor no: write one of them, or nothing")
    return answer


def _length_m(text: str, cells: Cells) -> float:
    """A length in the unit of its own, or else in that of its column [m]."""
    doubtful = cells.separator == "\t" and "," in text
    number = (with_certain_point if doubtful else with_point)(text, cells.separator)
    return length_m(number if _has_word(number) else f"{number} {cells.unit('length')}".rstrip())


def _price(text: str, cells: Cells) -> Price:
    """A price in the currency of its own, or else in that of its row or its column."""
    amount = " ".join(with_certain_point(text, cells.separator).split())
    named = cells.text("currency")
    if not _ENDS_IN_WORD.search(amount):
        return price(f"{amount} {named or cells.unit('price')}".rstrip())
    found = price(amount)
    if named and named != found.currency:
        raise ValueError(f"{quoted(text)} is not in {quoted(named)}, which its row names: keep one currency")
    return found


def _has_word(text: str) -> bool:
    return any(each.isalpha() or each in "'\"′″" for each in text)
