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
from netaudit.plan.scalars.text import free_text, quoted
from netaudit.plan.shapes.forms import words
from netaudit.plan.sheets.cells import Cells, read_rows
from netaudit.plan.sheets.marks import with_certain_point, with_point
from netaudit.plan.sheets.table import Wanted

COLUMNS = Wanted(("what", "price"), ("category", "screened", "gauge", "ends", "length", "currency"))
"""The columns of a price list; a bill's own sheet has them too, so that it comes back with its prices filled in."""
EURO = "EUR"
ANSWERS = {"yes": True, "true": True, "no": False, "false": False}

TOTAL = "total"
"""What a workbook writes before the sums below its table."""
_category: Callable[[str], Category] = words("a category", get_args(Category)).parse
_ENDS_IN_WORD = re.compile(r"[^\W\d_]{3}$")
_EURO = re.compile(r"€ ?([0-9][0-9.]*)|([0-9][0-9.]*) ?€")
_PARTED = re.compile(
    r"(?<![0-9.,])([1-9][0-9]{0,2}(?:([.,'’ ])[0-9]{3}(?:\2[0-9]{3})*))(?:([.,])([0-9]+))?(?![0-9.,'’])"
)
"""A number whose thousands are parted, perhaps with decimals."""


def read_prices(path: str | os.PathLike[str]) -> tuple[StockItem, ...]:
    """The rows of a price list that have a price.

    Raises InputError with every problem of the file, in file order, where there is any.
    """
    return read_rows(path, COLUMNS, _item)


def _item(cells: Cells) -> StockItem | None:
    """One row; None where nobody has filled in its price, and for the totals below a table."""
    if not cells.text("price") or (not cells.text("what") and cells.text("price").casefold() == TOTAL):
        return None
    what = cells.asked("what", lambda: _what(cells.text("what")))
    return StockItem(
        what=what or "",
        category=cells.value("category", lambda text: _category(with_point(text, cells.separator))),
        screened=cells.value("screened", _answer),
        cord_awg=cells.value("gauge", gauge_awg),
        length_m=cells.value("length", lambda text: _length_m(text, cells)),
        price=cells.value("price", lambda text: _price(text, cells)),
        ends=cells.value("ends", free_text),
    )


def _what(text: str) -> str:
    """What is sold; it may be longer than a name, as a switch is that is told by all its ports."""
    if not text:
        raise ValueError("what is sold is missing here: write it as the bill calls it, such as cord")
    return free_text(text)


def _answer(text: str) -> bool:
    answer = ANSWERS.get(text.casefold())
    if answer is None:
        raise ValueError(f"{quoted(text)} is neither yes nor no: write one of them, or nothing")
    return answer


def _length_m(text: str, cells: Cells) -> float:
    """A length in the unit of its own, or else in that of its column [m]."""
    doubtful = cells.separator == "\t" and "," in text
    number = (with_certain_point if doubtful else with_point)(text, cells.separator)
    if _has_word(number):
        return length_m(number)
    unit = cells.unit("length")
    if not unit:
        raise ValueError(f"{quoted(text)} has no unit: write {quoted(f'{number} m')}, or call the column `length [m]`")
    return length_m(f"{number} {unit}")


def _price(text: str, cells: Cells) -> Price:
    """A price in the currency of its own, or else in that of its row or its column."""
    amount = _with_code(_plain(text, cells))
    named = _code(cells.text("currency"))
    if not _ENDS_IN_WORD.search(amount):
        return price(f"{amount} {named or _code(cells.unit('price'))}".rstrip())
    found = price(amount)
    if named and named != found.currency:
        raise ValueError(f"{quoted(text)} is not in {quoted(named)}, which its row names: keep one currency")
    return found


def _plain(text: str, cells: Cells) -> str:
    """An amount with a point before its decimals; raises ValueError where its marks do not tell which these are."""
    bare = " ".join(text.split())
    parted = _PARTED.search(bare)
    if parted is not None and _surely_parted(parted):
        digits = "".join(filter(str.isdigit, parted[1]))
        plain = digits if parted[4] is None else f"{digits}.{parted[4]}"
        raise ValueError(f"{quoted(text)} has marks between its thousands: leave them out, as {plain}")
    if cells.separator == "," and "," in bare:
        raise ValueError(f"{quoted(text)} has a comma: write a point before decimals, and nothing between thousands")
    return with_certain_point(bare, cells.separator)


def _surely_parted(number: re.Match[str]) -> bool:
    """Whether the first mark of a number cannot be the one before its decimals."""
    groups, mark, decimal_mark, _ = number.groups()
    return mark not in ".," or groups.count(mark) > 1 or decimal_mark not in (None, mark)


def _with_code(amount: str) -> str:
    """An amount with the code of its currency where it has the sign of the euro."""
    euros = _EURO.fullmatch(amount)
    return amount if euros is None else f"{euros[1] or euros[2]} {EURO}"


def _code(currency: str) -> str:
    return EURO if currency == "€" else currency


def _has_word(text: str) -> bool:
    return any(each.isalpha() or each in "'\"′″" for each in text)
