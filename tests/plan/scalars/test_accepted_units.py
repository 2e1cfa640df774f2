"""The units that a plan may be written in: their sizes, and ranges that read back."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from netaudit.plan.scalars import accepted_units as units
from netaudit.plan.scalars.quantities import length_m, loss_db, power_w, rate_bit_per_s, size_bytes, time_s

KINDS = (
    units.RATE, units.LENGTH, units.SIZE, units.POWER, units.TIME, units.SHARE, units.LOSS, units.FREQUENCY, units.TEMPERATURE
)  # fmt: skip


def test_lengths_have_their_exact_sizes() -> None:
    # NIST Special Publication 811, appendix B.8.
    expected = {"m": "1", "cm": "0.01", "mm": "0.001", "km": "1000", "ft": "0.3048", "in": "0.0254"}

    assert {unit: Decimal(size) for unit, size in expected.items()} == units.LENGTH.factors


def test_sizes_count_in_thousands_and_in_1024() -> None:
    # IEC 80000-13, table 1 and clause 4: decimal prefixes, and Ki, Mi, Gi, Ti, Pi as powers of 1024.
    decimal = {"B": 1, "kB": 10**3, "MB": 10**6, "GB": 10**9, "TB": 10**12, "PB": 10**15}
    binary = {f"{prefix}iB": 1024**power for power, prefix in enumerate("KMGTP", start=1)}

    assert decimal | binary == units.SIZE.factors


def test_a_rate_in_bytes_is_eight_in_bits() -> None:
    for prefix in ("", "k", "M", "G", "T"):
        assert units.RATE.factors[f"{prefix}B/s"] == 8 * units.RATE.factors[f"{prefix}b/s"]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.what)
def test_other_spellings_mean_a_unit_and_are_none_themselves(kind: units.Unit) -> None:
    assert set(kind.meant.values()) <= set(kind.factors)
    assert not {spelling for spelling in kind.meant if kind.factors.get(spelling) == kind.factors[kind.meant[spelling]]}
    assert all(spelling == spelling.casefold() for spelling in kind.meant)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.what)
def test_a_range_is_not_empty(kind: units.Unit) -> None:
    assert kind.least < kind.most


@pytest.mark.parametrize(
    ("kind", "parse"),
    [
        (units.RATE, rate_bit_per_s),
        (units.LENGTH, length_m),
        (units.SIZE, size_bytes),
        (units.POWER, power_w),
        (units.TIME, time_s),
        (units.LOSS, loss_db),
    ],
    ids=lambda value: getattr(value, "what", ""),
)
def test_every_unit_of_a_kind_is_read(kind: units.Unit, parse: Callable[[str], float]) -> None:
    for unit, factor in kind.factors.items():
        amount = max(1, int(kind.least / factor))
        assert float(amount * factor) == pytest.approx(parse(f"{amount} {unit}"))
