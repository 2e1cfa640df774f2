"""Decimal marks: a sheet whose cells are not parted by commas may write numbers with one."""

from __future__ import annotations

import re

from netaudit.plan.scalars.text import quoted

_COMMA = re.compile(r"(?<![0-9.,])([0-9]+),([0-9]+)(?![0-9.,])")
_GROUPED = re.compile(r"(?<![0-9.,])[1-9][0-9]{0,2}[.,][0-9]{3}(?![0-9.,])")


def with_point(text: str, separator: str) -> str:
    """A number with a point before its decimals, whatever the sheet writes there."""
    return text if separator == "," else _COMMA.sub(r"\1.\2", text)


def with_certain_point(text: str, separator: str) -> str:
    """The same; raises ValueError where the mark may as well part the thousands, as in `1,234`."""
    if separator != "," and _GROUPED.search(text):
        raise ValueError(f"{quoted(text)} may be thousands or thousandths: write no mark, or two decimals")
    return with_point(text, separator)


def with_quoted_point(text: str, separator: str) -> str:
    """The same of a cell that holds nothing but a number: where commas part cells, one within it stands in quotes."""
    return with_certain_point(text, "" if "," in text else separator)
