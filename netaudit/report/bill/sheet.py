"""A sheet: one table of the bill, before anybody decides how it looks."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, NamedTuple

Cell = str | int | float | Decimal | None
"""None is unknown or does not apply, and stays empty; a decimal is money."""

SheetName = Literal[
    "bill", "cuts", "lengths", "labels", "ports", "free", "specification", "bench", "moves", "accept", "addresses"
]


class Column(NamedTuple):
    """A column of a sheet."""

    name: str
    """What stands at its head, with the unit where it has one: `length [m]`."""
    number: bool = False
    """Whether its cells are numbers, which stand to the right."""


class Sheet(NamedTuple):
    """A table with a name and a title."""

    name: SheetName
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    """A cell for each column."""
