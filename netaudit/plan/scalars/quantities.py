"""Quantities as people write them, read exactly: `10G`, `38 m`, `240 MB/s`, `24 °C` to SI units."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from netaudit.plan.scalars.accepted_units import (
    FREQUENCY,
    LENGTH,
    LOSS,
    POWER,
    RATE,
    SHARE,
    SIZE,
    TEMPERATURE,
    TIME,
    Unit,
)
from netaudit.plan.scalars.text import ends_in_blank, quoted

CACHED = 4096
"""Different texts of one kind that are remembered; a plan repeats few texts often."""

_BLANKS = " \t\u00a0\u2009\u202f"
_NUMBER = re.compile(rf"([+-]?)([0-9]{{1,24}}(?:\.[0-9]{{1,400}})?)[{_BLANKS}]*(.*)", re.DOTALL)
_ENDLESS = re.compile(r"[+-]?\.?(nan|inf|infinity)\b", re.IGNORECASE)


@lru_cache(CACHED)
def rate_bit_per_s(text: str) -> int:
    """A rate such as `10G`, `183.5 Mb/s`, `240 MB/s` [bit/s], to the whole bit; raises ValueError."""
    return int(_amount(text, RATE).to_integral_value())


@lru_cache(CACHED)
def length_m(text: str) -> float:
    """A length such as `38 m`, `600 mm`, `12 ft` [m]; raises ValueError."""
    return float(_amount(text, LENGTH))


@lru_cache(CACHED)
def size_bytes(text: str) -> int:
    """A size such as `20 TB` or `4 GiB` [byte], to the whole byte; raises ValueError."""
    return int(_amount(text, SIZE).to_integral_value())


@lru_cache(CACHED)
def power_w(text: str) -> float:
    """A power such as `41 W` or `1.5 kW` [W]; raises ValueError."""
    return float(_amount(text, POWER))


@lru_cache(CACHED)
def time_s(text: str) -> float:
    """A time such as `4 h` or `90 min` [s]; raises ValueError."""
    return float(_amount(text, TIME))


@lru_cache(CACHED)
def share(text: str) -> float:
    """A share such as `30%` [0 to 1]; raises ValueError."""
    return float(_amount(text, SHARE))


@lru_cache(CACHED)
def loss_db(text: str) -> float:
    """A loss such as `1.2 dB` [dB]; raises ValueError."""
    return float(_amount(text, LOSS))


@lru_cache(CACHED)
def sample_rate_hz(text: str) -> int:
    """Sound samples each second, bare or with a unit: `48000`, `48 kHz` [Hz]; raises ValueError."""
    bare = text.isascii() and text.isdigit()
    return int(_amount(f"{text} Hz" if bare else text, FREQUENCY).to_integral_value())


@lru_cache(CACHED)
def temperature_c(text: str) -> float:
    """A temperature such as `24 °C` or `75 °F` [°C]; may be negative; raises ValueError."""
    number, unit = _split(text, TEMPERATURE)
    celsius = (Fraction(number) - 32) * 5 / 9 if unit == "°F" else Fraction(number)
    if not Fraction(TEMPERATURE.least) <= celsius <= Fraction(TEMPERATURE.most):
        raise ValueError(_out_of_range(text, TEMPERATURE))
    return float(celsius)


def _amount(text: str, kind: Unit) -> Decimal:
    number, unit = _split(text, kind)
    if number.is_signed():
        raise ValueError(f"{quoted(text)} is negative: {kind.what} is {kind.bounds}")
    if number == 0 < kind.least:
        raise ValueError(_zero(text, kind))
    amount = number * kind.factors[unit]
    if not kind.least <= amount <= kind.most:
        raise ValueError(_out_of_range(text, kind))
    return amount


def _zero(text: str, kind: Unit) -> str:
    return f"{quoted(text)} is nothing: {kind.what} is above zero, {kind.bounds}"


def _out_of_range(text: str, kind: Unit) -> str:
    return f"{quoted(text)} makes no sense: {kind.what} is {kind.bounds}"


def _split(text: str, kind: Unit) -> tuple[Decimal, str]:
    """Number and unit of a quantity; raises ValueError where either is not right."""
    parts = _NUMBER.fullmatch(text)
    if parts is None:
        raise ValueError(_no_number(text, kind))
    sign, digits, unit = parts.groups()
    if unit.rstrip() in kind.factors and unit != unit.rstrip():
        raise ValueError(ends_in_blank(text))
    if unit not in kind.factors:
        raise ValueError(_no_unit(text, digits, unit.strip(_BLANKS), kind))
    return Decimal(sign + digits), unit


def _no_number(text: str, kind: Unit) -> str:
    if text[:1].isspace() and _NUMBER.fullmatch(text.strip()):
        return ends_in_blank(text)
    if not text:
        return f"nothing is written here: write {kind.what} such as {kind.example}, or leave the key out"
    if _ENDLESS.match(text):
        return f"{quoted(text)} is not a number: {kind.what} is {kind.bounds}, and one you do not know is left out"
    return f"{quoted(text)} is not {kind.what}: write a number and a unit, such as {kind.example}"


def _no_unit(text: str, digits: str, unit: str, kind: Unit) -> str:
    if Decimal(digits) == 0 < kind.least:
        return _zero(text, kind)
    if not unit:
        return f"{quoted(text)} has no unit: write {_spelled_with(digits, kind)}"
    if unit[0].isdigit():
        return f"{quoted(text)} has more digits than make sense: {kind.what} is {kind.bounds}"
    if unit[0] in ",.'_" and unit.strip(",.'_0123456789") != unit:
        return f"{quoted(text)} is not a number: write it without commas, with a point before decimals, such as 1234.5"
    if unit[0] in "eE" and unit[1:2].isdigit():
        return f"{quoted(text)} is written with an exponent: write the number out, such as {kind.example}"
    meant = _meant_units(unit, kind)
    if meant:
        choices = " or ".join(f"{digits}{_gap(each)}{each}{_kind_of_bit(each, meant)}" for each in meant)
        return f"{quoted(text)}: {quoted(unit)} is not how that unit is written: write {choices}"
    return f"{quoted(text)}: {quoted(unit)} is not a unit of {kind.what[2:]}: write one of {' '.join(kind.factors)}"


def _spelled_with(digits: str, kind: Unit) -> str:
    if kind is RATE:
        return f"{digits}G or {digits} Gb/s, {digits}M or {digits} Mb/s, or {digits} MB/s"
    return " or ".join(f"{digits}{_gap(each)}{each}" for each in kind.factors)


def _meant_units(unit: str, kind: Unit) -> tuple[str, ...]:
    """The units that a wrongly written one may stand for, the likeliest first."""
    folded = unit.casefold().removesuffix(".")
    if folded in kind.meant:
        return (kind.meant[folded],)
    slashed = unit[:-2] + "/s" if folded.endswith("bps") else unit + "/s" if folded.endswith("b") else unit
    candidates = {unit.casefold(), slashed.casefold()}
    if slashed in kind.factors:
        return (slashed,)
    return tuple(each for each in kind.factors if each.casefold() in candidates)


def _gap(unit: str) -> str:
    return "" if unit in {"k", "M", "G", "T", "%"} else " "


def _kind_of_bit(unit: str, among: tuple[str, ...]) -> str:
    if len(among) == 1:
        return ""
    return " (bytes)" if "B" in unit else " (bits)"
