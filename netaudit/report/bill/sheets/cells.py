"""Cells: values of the model as a sheet holds them, numbers as numbers and unknown as nothing."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from netaudit.report.bill.sheet import Cell, Column
from netaudit.report.goods_words import exact_text
from netaudit.units import both_rates_text, number_text

BITS_PER_GIGABIT = 1_000_000_000
BITS_PER_MEGABYTE = 8_000_000


def text(*names: str) -> tuple[Column, ...]:
    """Columns of text."""
    return tuple(Column(name) for name in names)


def numbers(*names: str) -> tuple[Column, ...]:
    """Columns of numbers."""
    return tuple(Column(name, number=True) for name in names)


RATE_COLUMNS = numbers("rate [Gb/s]", "rate [MB/s]")
"""A rate in both units, for whoever counts with it."""


def rate_cells(rate_bit_per_s: int | None) -> tuple[float | None, float | None]:
    """A rate [Gb/s], and the same in bytes [MB/s]."""
    if rate_bit_per_s is None:
        return None, None
    return rate_bit_per_s / BITS_PER_GIGABIT, rate_bit_per_s / BITS_PER_MEGABYTE


def both_rates(rate_bit_per_s: int | None) -> str | None:
    """A rate in both units: `10 Gb/s (1250 MB/s)`."""
    return None if rate_bit_per_s is None else both_rates_text(rate_bit_per_s)


def screen(screened: bool | None) -> str | None:  # noqa: FBT001 - it is the value itself, not a switch
    """Whether a thing has a screen; empty where that means nothing."""
    return None if screened is None else "yes" if screened else "no"


def gauge(gauge_awg: int | None) -> str | None:
    """A gauge as the trade writes it: `26 AWG`."""
    return None if gauge_awg is None else f"{gauge_awg} AWG"


def joined(names: Iterable[object]) -> str | None:
    """Names in one cell; empty where there are none."""
    return ", ".join(map(str, names)) or None


def in_words(cell: Cell) -> str:
    """A cell as people read it."""
    if cell is None:
        return ""
    if isinstance(cell, Decimal):
        return exact_text(cell)
    return number_text(cell) if isinstance(cell, float) else str(cell)
