"""Spelling is the inverse of reading, in handy units."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import buses, lengths_m, rates_bit_per_s

from netaudit.model.plan import Bus, Price, Rates
from netaudit.plan.scalars import counts, footage, ports, quantities, spelling


@pytest.mark.parametrize(
    ("spell", "value", "text"),
    [
        (spelling.port_rate, 10_000_000_000, "10G"),
        (spelling.port_rate, 2_500_000_000, "2.5G"),
        (spelling.port_rate, 100_000_000, "100M"),
        (spelling.port_rate, 1_234_567_890, "1.23456789 Gb/s"),
        (spelling.stream_rate, 183_500_000, "183.5 Mb/s"),
        (spelling.stream_rate, 1_001, "1.001 kb/s"),
        (spelling.disk_rate, 1_920_000_000, "240 MB/s"),
        (spelling.disk_rate, 56_000_000_000, "7 GB/s"),
        (spelling.disk_rate, 1_001, "1.001 kb/s"),
        (spelling.length, 38.0, "38 m"),
        (spelling.length, 0.6, "600 mm"),
        (spelling.length, 30.48, "30.48 m"),
        (spelling.size, 20 * 10**12, "20 TB"),
        (spelling.size, 2**40, "1 TiB"),
        (spelling.size, 1, "1 B"),
        (spelling.power, 41.0, "41 W"),
        (spelling.temperature, -5.5, "-5.5 °C"),
        (spelling.temperature, -0.0, "0 °C"),
        (spelling.loss, 1.2, "1.2 dB"),
        (spelling.time, 14_400.0, "4 h"),
        (spelling.time, 5400.0, "90 min"),
        (spelling.time, 172_800.0, "2 d"),
        (spelling.time, 0.5, "0.5 s"),
        (spelling.share, 0.3, "30%"),
        (spelling.time_of_day, 425, "07:05"),
        (spelling.gauge, 26, "26 AWG"),
        (spelling.price, Price(amount=Decimal("7.20"), currency="EUR"), "7.20 EUR"),
        (spelling.raster, (3840, 2160), "3840x2160"),
        (spelling.ratio, Fraction(7, 2), "7:2"),
        (spelling.sample_rate, 44_100, "44.1 kHz"),
        (spelling.rates, Rates((10_000_000_000,)), "10G"),
        (spelling.rates, Rates((1_000_000_000, 100_000_000), up_to=True), "up to 1G"),
        (spelling.bus, Bus(kind="pcie", generation=3, lanes=4), "pcie 3 x4"),
        (spelling.bus, Bus(kind="usb", rate_bit_per_s=10_000_000_000, via="dock"), "usb 10G via dock"),
        (spelling.pool_reference, ("vault", "main"), "vault/main"),
    ],
)
def test_values_are_spelt_in_the_handiest_unit(spell: Callable[[Any], str], value: object, text: str) -> None:
    assert text == spell(value)


@given(rates_bit_per_s())
def test_rates_read_back_to_the_bit(rate: int) -> None:
    for spell in (spelling.port_rate, spelling.stream_rate, spelling.disk_rate):
        assert rate == quantities.rate_bit_per_s(spell(rate))


@given(lengths_m())
def test_lengths_read_back_to_the_last_digit(length_m: float) -> None:
    assert length_m == quantities.length_m(spelling.length(length_m))


@given(st.integers(1, 10**18))
def test_sizes_read_back_to_the_byte(size_bytes: int) -> None:
    assert size_bytes == quantities.size_bytes(spelling.size(size_bytes))


@given(st.floats(-60, 90))
def test_temperatures_read_back_to_the_last_digit(temperature_c: float) -> None:
    assert temperature_c == quantities.temperature_c(spelling.temperature(temperature_c))


@given(st.floats(0, 0.99))
def test_shares_read_back_to_the_last_digit(share: float) -> None:
    assert share == quantities.share(spelling.share(share))


@given(st.floats(0.001, 366 * 86400))
def test_times_read_back_to_the_last_digit(time_s: float) -> None:
    assert time_s == quantities.time_s(spelling.time(time_s))


@given(st.floats(0, 100))
def test_losses_and_powers_read_back_to_the_last_digit(value: float) -> None:
    assert value == quantities.loss_db(spelling.loss(value)) == quantities.power_w(spelling.power(value))


@given(st.floats(1e-9, 1000))
def test_weights_read_back_to_the_last_digit(weight: float) -> None:
    assert weight == counts.weight(spelling.number(weight))


@given(buses())
def test_buses_read_back(bus: Bus) -> None:
    assert bus == ports.bus(spelling.bus(bus))


@given(st.fractions(1, 1000, max_denominator=1001))
def test_ratios_read_back(ratio: Fraction) -> None:
    assert ratio == footage.ratio(spelling.ratio(ratio))
