"""The units that a plan may be written in, with the range of each kind that makes sense."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from netaudit.units import BITS_PER_BYTE, METRES_PER_FOOT, METRES_PER_INCH


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
