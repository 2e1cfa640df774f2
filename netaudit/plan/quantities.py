"""Quantities as people write them, read exactly: `10G`, `38 m`, `240 MB/s`, `24 °C` to SI units."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Final

from netaudit.plan.text import quoted
from netaudit.units import BITS_PER_BYTE, METRES_PER_FOOT, METRES_PER_INCH

CACHED = 4096
"""Different texts of one kind that are remembered; a plan repeats few texts often."""

_BLANKS = " \t\u00a0\u2009\u202f"
_NUMBER = re.compile(rf"([+-]?)([0-9]{{1,24}}(?:\.[0-9]{{1,400}})?)[{_BLANKS}]*(.*)", re.DOTALL)
_ENDLESS = re.compile(r"[+-]?\.?(nan|inf|infinity)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A kind of quantity: its units, the range that makes sense, and an example."""

    what: str
    """The kind with its article: a length."""
    factors: Mapping[str, Decimal]
    """Unit as written to its size in the SI unit."""
    example: str
    least: Decimal
    most: Decimal
    bounds: str
    """The range as people write it: 1 mm to 200 km."""
    meant: Mapping[str, str]
    """Other spellings, in lower case, to the unit that is meant."""


def _decimals(**factors: str) -> dict[str, Decimal]:
    return {unit: Decimal(factor) for unit, factor in factors.items()}


_BITS: Final = {
    "b": Decimal(1),
    "kb": Decimal(10**3),
    "Mb": Decimal(10**6),
    "Gb": Decimal(10**9),
    "Tb": Decimal(10**12),
}
_BYTES: Final = {unit[:-1] + "B": factor * BITS_PER_BYTE for unit, factor in _BITS.items()}

RATE = Unit(
    what="a rate",
    factors={
        **{unit.removesuffix("b"): factor for unit, factor in _BITS.items() if unit != "b"},
        **{f"{unit}/s": factor for unit, factor in (_BITS | _BYTES).items()},
    },
    example="10G, 183.5 Mb/s or 240 MB/s",
    least=Decimal(10**3),
    most=Decimal(10**14),
    bounds="1 kb/s to 100 Tb/s",
    meant={
        **{f"{prefix}{tail}": f"{prefix if prefix == 'k' else prefix.upper()}b/s"
           for prefix in "kmgt" for tail in ("bit/s", "bit", "bits", "bits/s")},
        "gbe": "G", "gig": "G", "gige": "G",
    },
)  # fmt: skip
LENGTH = Unit(
    what="a length",
    factors=_decimals(m="1", cm="0.01", mm="0.001", km="1000", ft=str(METRES_PER_FOOT))
    | {"in": Decimal(str(METRES_PER_INCH))},
    example="38 m",
    least=Decimal("0.001"),
    most=Decimal(200_000),
    bounds="1 mm to 200 km",
    meant={
        **dict.fromkeys(("meter", "meters", "metre", "metres", "mtr"), "m"),
        **dict.fromkeys(("'", "foot", "feet", "′"), "ft"),
        **dict.fromkeys(('"', "inch", "inches", "″"), "in"),
    },
)
SIZE = Unit(
    what="a size",
    factors={
        **{unit: factor / BITS_PER_BYTE for unit, factor in _BYTES.items()},
        "PB": Decimal(10**15),
        **{f"{prefix}iB": Decimal(1 << 10 * power) for power, prefix in enumerate("KMGTP", start=1)},
    },
    example="20 TB",
    least=Decimal(1),
    most=Decimal(10**18),
    bounds="1 B to 1000 PB",
    meant={f"{prefix}{tail}": f"{prefix if prefix == 'k' else prefix.upper()}B"
           for prefix in "kmgtp" for tail in ("", "o", "byte", "bytes")} | {"byte": "B", "bytes": "B"},
)  # fmt: skip
POWER = Unit(
    what="a power",
    factors=_decimals(W="1", kW="1000"),
    example="41 W",
    least=Decimal(0),
    most=Decimal(10**6),
    bounds="0 W to 1000 kW",
    meant={"watt": "W", "watts": "W"},
)
TIME = Unit(
    what="a time",
    factors=_decimals(s="1", min="60", h="3600", d="86400"),
    example="4 h",
    least=Decimal("0.001"),
    most=Decimal(366 * 86400),
    bounds="0.001 s to 366 d",
    meant={
        **dict.fromkeys(("sec", "secs", "second", "seconds"), "s"),
        **dict.fromkeys(("m", "mins", "minute", "minutes"), "min"),
        **dict.fromkeys(("hr", "hrs", "hour", "hours"), "h"),
        **dict.fromkeys(("day", "days"), "d"),
    },
)
SHARE = Unit(
    what="a share",
    factors={"%": Decimal("0.01")},
    example="30%",
    least=Decimal(0),
    most=Decimal("0.99"),
    bounds="0% to 99%",
    meant=dict.fromkeys(("percent", "per cent", "pct"), "%"),
)
LOSS = Unit(
    what="a loss",
    factors={"dB": Decimal(1)},
    example="1.2 dB",
    least=Decimal(0),
    most=Decimal(100),
    bounds="0 dB to 100 dB",
    meant={"decibel": "dB", "decibels": "dB"},
)
FREQUENCY = Unit(
    what="a sample rate",
    factors=_decimals(Hz="1", kHz="1000"),
    example="48 kHz",
    least=Decimal(1000),
    most=Decimal(1_000_000),
    bounds="1 kHz to 1000 kHz",
    meant={"k": "kHz"},
)
TEMPERATURE = Unit(
    what="a temperature",
    factors={"°C": Decimal(1), "C": Decimal(1), "°F": Decimal(1)},
    example="24 °C",
    least=Decimal(-60),
    most=Decimal(90),
    bounds="-60 °C to 90 °C",
    meant=dict.fromkeys(("°", "º", "ºc", "℃", "deg", "degc", "deg c", "celsius"), "°C")
    | dict.fromkeys(("f", "ºf", "℉", "degf", "deg f", "fahrenheit"), "°F"),
)


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
    amount = number * kind.factors[unit]
    if not kind.least <= amount <= kind.most:
        raise ValueError(_out_of_range(text, kind))
    return amount


def _out_of_range(text: str, kind: Unit) -> str:
    return f"{quoted(text)} makes no sense: {kind.what} is {kind.bounds}"


def _split(text: str, kind: Unit) -> tuple[Decimal, str]:
    """Number and unit of a quantity; raises ValueError where either is not right."""
    parts = _NUMBER.fullmatch(text)
    if parts is None:
        raise ValueError(_no_number(text, kind))
    sign, digits, unit = parts.groups()
    if unit not in kind.factors:
        raise ValueError(_no_unit(text, digits, unit.strip(_BLANKS), kind))
    return Decimal(sign + digits), unit


def _no_number(text: str, kind: Unit) -> str:
    if not text:
        return f"nothing is written here: write {kind.what} such as {kind.example}, or leave the key out"
    if _ENDLESS.match(text):
        return f"{quoted(text)} is not a number: {kind.what} is {kind.bounds}, and one you do not know is left out"
    return f"{quoted(text)} is not {kind.what}: write a number and a unit, such as {kind.example}"


def _no_unit(text: str, digits: str, unit: str, kind: Unit) -> str:
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
