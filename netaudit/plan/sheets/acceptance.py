"""A filled acceptance sheet in CSV: the rates that somebody read off, cable by cable."""

from __future__ import annotations

import os
import re

from netaudit.model.moving import SeenRate
from netaudit.plan.scalars.quantities import rate_bit_per_s
from netaudit.plan.scalars.text import name, quoted
from netaudit.plan.sheets.cells import Cells, read_rows
from netaudit.plan.sheets.marks import with_quoted_point
from netaudit.plan.sheets.shown_rates import as_rate
from netaudit.plan.sheets.table import Wanted

COLUMNS = Wanted(("cable", "seen"), ("from", "to", "initials", "note"))
"""The columns that are read; others, such as what was expected, follow from the plan."""
NO_LINK = frozenset({"no link", "no", "none", "down", "no carrier", "disconnected", "inactive"})
"""Words for a port that shows no link, in lower case."""
NOT_TESTED = frozenset({"-", "–", "—", "?", "n/a", "na", "n.a.", "not tested", "untested"})
"""Words for a port that nobody has looked at, in lower case."""

_BARE = re.compile(r"[0-9]+(\.[0-9]+)?")
_ZERO = re.compile(r"0+(\.0+)?\s*([kMGT]?([bB]/s)?)")


def read_acceptance(path: str | os.PathLike[str]) -> tuple[SeenRate, ...]:
    """Every row of a filled acceptance sheet.

    Raises InputError with every problem of the file, in file order, where there is any.
    """
    return read_rows(path, COLUMNS, _row)


def _row(cells: Cells) -> SeenRate:
    cable = cells.asked("cable", lambda: name(cells.text("cable")))
    ends = (cells.text("from"), cells.text("to"))
    return SeenRate(
        cable=cable or "",
        ends=" - ".join(end for end in ends if end),
        seen_bit_per_s=cells.value("seen", lambda text: _seen_bit_per_s(text, cells)),
        initials=cells.text("initials"),
        note=cells.text("note"),
        line=cells.line,
    )


def _seen_bit_per_s(text: str, cells: Cells) -> int | None:
    """A rate in the unit of its own, or else in that of its column; 0 where there is no link [bit/s]."""
    word = text.casefold()
    if word in NOT_TESTED:
        return None
    if word in NO_LINK:
        return 0
    try:
        number = with_quoted_point(text, cells.separator)
        rate = as_rate(f"{number} {cells.unit('seen')}".rstrip() if _BARE.fullmatch(number) else number)
        return 0 if _ZERO.fullmatch(rate) else rate_bit_per_s(rate)
    except ValueError as error:
        hint = (
            "" if text[0].isdigit() else f"; write {quoted('no link')} where there is none, and nothing if not tested"
        )
        raise ValueError(f"{error}{hint}") from None
