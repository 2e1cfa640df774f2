"""Bare numbers: counts and identifiers with their ranges, weights, gauges, times of day, prices."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from functools import lru_cache

from netaudit.model.plan import Price
from netaudit.plan.scalars.quantities import CACHED
from netaudit.plan.scalars.text import ends_in_blank, quoted

DEAREST = Decimal(10**9)
"""The highest price that is taken for one."""
HEAVIEST = Decimal(1000)
"""The highest weight of a copy."""

_WHOLE = re.compile(r"[0-9]{1,12}")
_LEADING_NUMBER = re.compile(r"([+-]?)([0-9][0-9.,_' ]*)(.*)", re.DOTALL)
_WEIGHT = re.compile(r"[0-9]{1,12}(\.[0-9]{1,400})?")
_GAUGE = re.compile(r"([0-9]{1,3})( ?AWG)?")
_TIME_OF_DAY = re.compile(r"([01][0-9]|2[0-3]):([0-5][0-9])")
_PRICE = re.compile(r"([0-9]{1,12}(?:\.[0-9]{1,6})?) ([A-Z]{3})")


def count(what: str, least: int, most: int, step: int = 1) -> Callable[[str], int]:
    """A reader of bare whole numbers from `least` to `most` in steps of `step`; it raises ValueError.

    `what` names the number in messages, with its article: a number of drives.
    """
    steps = f" in steps of {step}" if step > 1 else ""
    wanted = f"{what} is a whole number from {least} to {most}{steps}"

    @lru_cache(CACHED)
    def parse(text: str) -> int:
        if not _WHOLE.fullmatch(text):
            raise ValueError(_not_bare(text, wanted))
        number = int(text)
        if not least <= number <= most or number % step:
            raise ValueError(f"{quoted(text)} is out of range: {wanted}")
        return number

    return parse


@lru_cache(CACHED)
def weight(text: str) -> float:
    """A share against other traffic, one connection being 1: a bare number over 0; raises ValueError."""
    wanted = f"a weight is a bare number over 0, at most {HEAVIEST}"
    if not _WEIGHT.fullmatch(text):
        raise ValueError(_not_bare(text, wanted))
    if not 0 < Decimal(text) <= HEAVIEST:
        raise ValueError(f"{quoted(text)} is out of range: {wanted}")
    return float(text)


@lru_cache(CACHED)
def gauge_awg(text: str) -> int:
    """The gauge of a stranded cord, such as `26 AWG` [AWG]; raises ValueError."""
    from netaudit.standards.copper import GAUGES_AWG  # noqa: PLC0415 - only a plan with cords pays for the table

    found = _GAUGE.fullmatch(text)
    if found is None or int(found[1]) not in GAUGES_AWG:
        known = ", ".join(f"{gauge} AWG" for gauge in GAUGES_AWG)
        raise ValueError(f"{quoted(text)} is not a gauge of stranded cord: write one of {known}")
    return int(found[1])


@lru_cache(CACHED)
def minute_of_day(text: str) -> int:
    """A time of day such as `19:30` [minutes after midnight]; raises ValueError."""
    found = _TIME_OF_DAY.fullmatch(text)
    if found is None:
        raise ValueError(f"{quoted(text)} is not a time of day: write hours and minutes from 00:00 to 23:59, as 07:05")
    return int(found[1]) * 60 + int(found[2])


@lru_cache(CACHED)
def price(text: str) -> Price:
    """A price such as `7.20 EUR`; raises ValueError."""
    found = _PRICE.fullmatch(text)
    if found is None:
        raise ValueError(
            f"{quoted(text)} is not a price: write an amount and a currency of three capitals, as 7.20 EUR"
        )
    amount = Decimal(found[1])
    if amount > DEAREST:
        raise ValueError(f"{quoted(text)} makes no sense: a price is at most {DEAREST} {found[2]}")
    return Price(amount=amount, currency=found[2])


def _not_bare(text: str, wanted: str) -> str:
    if not text:
        return f"nothing is written here: {wanted}; leave the key out if you do not know it"
    if _WHOLE.fullmatch(text.strip()):
        return ends_in_blank(text)
    found = _LEADING_NUMBER.fullmatch(text)
    if found is None:
        return f"{quoted(text)} is not a number: {wanted}"
    if found[1] == "-":
        return f"{quoted(text)} is negative: {wanted}"
    if found[3]:
        return f"{quoted(text)} is a number with more behind it: {wanted}, without a unit"
    return f"{quoted(text)} is not a plain number: {wanted}, without a sign, point or comma"
