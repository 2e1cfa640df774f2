"""Values as a plan spells them: the exact inverse of reading, in the handiest unit."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from ipaddress import IPv4Address, IPv6Address

from netaudit.model.plan import Bus, Price, Rates
from netaudit.units import BITS_PER_BYTE

_DECIMAL_SIZES = {"PB": 10**15, "TB": 10**12, "GB": 10**9, "MB": 10**6, "kB": 10**3, "B": 1}
_BINARY_SIZES = {"PiB": 1 << 50, "TiB": 1 << 40, "GiB": 1 << 30, "MiB": 1 << 20, "KiB": 1 << 10}
_BIT_RATES = {"G": 10**9, "M": 10**6, "k": 10**3}
_LONG_BIT_RATES = {"Gb/s": 10**9, "Mb/s": 10**6, "kb/s": 10**3, "b/s": 1}
_BYTE_RATES = {f"{unit}/s": factor * BITS_PER_BYTE for unit, factor in _DECIMAL_SIZES.items() if unit != "PB"}
_TIMES = {"d": 86400, "h": 3600, "min": 60}


def number(value: float | Decimal) -> str:
    """A number with every digit that it has and no exponent."""
    text = format(Decimal(repr(value)) if isinstance(value, float) else value, "f")
    shortest = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if shortest == "-0" else shortest


def port_rate(rate_bit_per_s: int) -> str:
    """A rate of a port or a seat: `10G`, `2.5G`, `100M`; whatever is not short is written as a stream's is."""
    for unit, factor in _BIT_RATES.items():
        if rate_bit_per_s >= factor and rate_bit_per_s * 10 % factor == 0:
            return f"{number(Decimal(rate_bit_per_s) / factor)}{unit}"
    return stream_rate(rate_bit_per_s)


def stream_rate(rate_bit_per_s: int) -> str:
    """A rate of a stream: `183.5 Mb/s`."""
    return _in_largest(rate_bit_per_s, _LONG_BIT_RATES)


def disk_rate(rate_bit_per_s: int) -> str:
    """A rate of a disk in bytes: `240 MB/s`, or in bits where it is no whole number of bytes."""
    if rate_bit_per_s % BITS_PER_BYTE:
        return stream_rate(rate_bit_per_s)
    return _in_largest(rate_bit_per_s, _BYTE_RATES if rate_bit_per_s >= 10**10 else {"MB/s": 8 * 10**6})


def size(size_bytes: int) -> str:
    """A size: `20 TB`, or `1 GiB` where it is a whole number of such."""
    for unit, factor in _BINARY_SIZES.items():
        if size_bytes % factor == 0 and size_bytes % 1000:
            return f"{size_bytes // factor} {unit}"
    return _in_largest(size_bytes, _DECIMAL_SIZES)


def length(length_m: float) -> str:
    """A length: `38 m`, `600 mm`."""
    in_mm = Decimal(repr(length_m)) * 1000
    return f"{number(in_mm)} mm" if length_m < 1 and in_mm == in_mm.to_integral_value() else f"{number(length_m)} m"


def power(power_w: float) -> str:
    """A power: `41 W`."""
    return f"{number(power_w)} W"


def temperature(temperature_c: float) -> str:
    """A temperature: `24 °C`."""
    return f"{number(temperature_c)} °C"


def loss(loss_db: float) -> str:
    """A loss: `1.2 dB`."""
    return f"{number(loss_db)} dB"


def time(time_s: float) -> str:
    """A time: `4 h`, `90 min`, `0.5 s`."""
    exact = Decimal(repr(time_s))
    for unit, seconds in _TIMES.items():
        if exact % seconds == 0:
            return f"{number(exact / seconds)} {unit}"
    return f"{number(time_s)} s"


def share(share_of_one: float) -> str:
    """A share as per cent: `30%`."""
    return f"{number(Decimal(repr(share_of_one)) * 100)}%"


def time_of_day(minute_of_day: int) -> str:
    """A time of day: `19:30`."""
    return f"{minute_of_day // 60:02}:{minute_of_day % 60:02}"


def gauge(gauge_awg: int) -> str:
    """A gauge: `26 AWG`."""
    return f"{gauge_awg} AWG"


def price(value: Price) -> str:
    """A price: `7.20 EUR`."""
    return f"{value.amount:f} {value.currency}"


def raster(sides: tuple[int, int]) -> str:
    """Width and height: `3840x2160`."""
    return f"{sides[0]}x{sides[1]}"


def ratio(value: Fraction) -> str:
    """A compression: `5:1`."""
    return f"{value.numerator}:{value.denominator}"


def sample_rate(sample_rate_hz: int) -> str:
    """Sound samples each second: `48 kHz`."""
    return f"{number(Decimal(sample_rate_hz) / 1000)} kHz"


def leases(ends: tuple[IPv4Address | IPv6Address, IPv4Address | IPv6Address]) -> str:
    """Addresses that are handed out: `10.44.20.100-10.44.20.199`."""
    return f"{ends[0]}-{ends[1]}"


def rates(value: Rates) -> str:
    """One rate, or all up to one: `10G`, `up to 10G`."""
    highest = port_rate(value.bit_per_s[0])
    return f"up to {highest}" if value.up_to else highest


def bus(value: Bus) -> str:
    """A bus: `pcie 3 x4`, `usb 10G via dock`."""
    if value.kind == "usb":
        road = f"usb {port_rate(value.rate_bit_per_s or 0)}"
    elif value.kind == "pcie":
        road = f"pcie {value.generation} x{value.lanes}"
    else:
        road = f"thunderbolt {value.generation}"
    return road if value.via is None else f"{road} via {value.via}"


def pool_reference(pool: tuple[str, str]) -> str:
    """A pool of a storage: `vault/main`."""
    return "/".join(pool)


def _in_largest(amount: int, factors: Mapping[str, int]) -> str:
    """The amount in the largest unit that it reaches; in the last one where it reaches none."""
    unit = next((each for each, factor in factors.items() if amount >= factor), list(factors)[-1])
    return f"{number(Decimal(amount) / factors[unit])} {unit}"
