"""Options that are quantities with a unit, read as a plan's are."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

import click

_SHARE = re.compile(r"([0-9]{1,4}(?:\.[0-9]{1,6})?) ?%")
_MOST_PERCENT = 1000
_NOTHING = re.compile(r"0(\.0+)? ?(m|cm|mm|ft|in)")


class Quantity(click.ParamType):  # type: ignore[type-arg]  # not generic in older releases
    """A value with a unit, such as `0.5 m`; what cannot be read is told in the reader's words."""

    def __init__(self, name: str, reader: Callable[[str], object]) -> None:
        self.name = name
        self._read = reader

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> object:
        """The value as the reader gives it; click's usage error where it cannot be read."""
        if not isinstance(value, str):
            return value
        try:
            return self._read(value)
        except ValueError as error:
            self.fail(str(error), param, ctx)


def length_m(text: str) -> float:
    """A length such as `0.5 m` or `20 in` [m]; ValueError."""
    from netaudit.plan.scalars.quantities import length_m as read  # noqa: PLC0415 - --help never pays for it

    return read(text)


def length_or_zero_m(text: str) -> float:
    """A length that may be nothing at all, as `0 m` [m]; ValueError."""
    return 0.0 if _NOTHING.fullmatch(text) else length_m(text)


def share(text: str) -> float:
    """A share such as `10%`, which may be more than all, as `150%` [0 to 10]; ValueError."""
    found = _SHARE.fullmatch(text)
    if found is None or float(found[1]) > _MOST_PERCENT:
        raise ValueError(f"{text!r} is not a share: write per cent from 0% to {_MOST_PERCENT}%, such as 10%")
    return float(Decimal(found[1]) / 100)


def pattern(text: str) -> str:
    """The pattern of a label, which may hold what a plan's `label` may; ValueError."""
    from netaudit.plan.scalars.text import free_text  # noqa: PLC0415 - --help never pays for it

    if not text:
        raise ValueError("nothing is written here: write a pattern such as '{id} {near} > {far}', or leave it out")
    return free_text(text)


def geometry(text: str) -> object:
    """The geometry of a sheet of labels, such as `3x8 70x36 mm on a4`; ValueError."""
    from netaudit.report.bill.labels.geometry import parsed  # noqa: PLC0415 - --help never pays for it

    return parsed(text)
