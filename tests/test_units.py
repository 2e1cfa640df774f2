"""How quantities are written for people."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit import units


@pytest.mark.parametrize(
    ("rate", "text"),
    [
        (10_000_000_000, "10 Gb/s (1250 MB/s)"),
        (9_900_420_447, "9.9 Gb/s (1238 MB/s)"),
        (941_482_445, "941 Mb/s (118 MB/s)"),
        (183_500_000, "184 Mb/s (22.9 MB/s)"),
        (1_152_000, "1.15 Mb/s (0.14 MB/s)"),
        (64_000, "64 kb/s (0.01 MB/s)"),
        (500, "500 b/s (0 MB/s)"),
        (0, "0 b/s (0 MB/s)"),
    ],
)
def test_a_rate_is_written_in_both_units(rate: int, text: str) -> None:
    assert text == units.both_rates_text(rate)


def test_lengths_are_written_to_the_centimetre() -> None:
    assert ["42 m", "0.5 m", "304.8 m", "100.01 m"] == [units.length_text(m) for m in (42.0, 0.5, 304.8, 100.01)]


def test_a_length_of_a_kilometre_and_more_is_told_in_kilometres_to_the_centimetre() -> None:
    lengths_m = (999.99, 999.996, 1000.0, 1500.0, 10_000.0, 10_000.01)

    assert ["999.99 m", "1 km", "1 km", "1.5 km", "10 km", "10.00001 km"] == [units.length_text(m) for m in lengths_m]


FOOT_M = 0.3048
"""The international foot, exactly: NIST Special Publication 811, appendix B.6."""


@pytest.mark.parametrize(
    ("length_m", "text"),
    [
        (0.25, "0.25 m"), (3.0, "3 m"), (7.5, "7.5 m"), (100.0, "100 m"), (500.0, "500 m"), (1000.0, "1 km"),
        (0.8, "0.8 m"), (3.05, "3.05 m"), (3.81, "12.5 ft (3.81 m)"), (762.0, "762 m"),
        (0.5 * FOOT_M, "0.5 ft (0.15 m)"), (1.5 * FOOT_M, "1.5 ft (0.46 m)"), (7 * FOOT_M, "7 ft (2.13 m)"),
        (10 * FOOT_M, "10 ft (3.05 m)"), (100 * FOOT_M, "100 ft (30.48 m)"), (500 * FOOT_M, "500 ft (152.4 m)"),
        (1000 * FOOT_M, "304.8 m (1000 ft)"), (305.0, "305 m"), (5000 * FOOT_M, "1.524 km"), (0.0, "0 m"),
    ],
)  # fmt: skip
def test_what_is_sold_in_feet_is_told_in_feet_first(length_m: float, text: str) -> None:
    assert text == units.sold_length_text(length_m)


@given(st.integers(1, 4000))
def test_every_metric_size_is_told_in_metres_alone_whatever_feet_it_is(quarters: int) -> None:
    assert units.length_text(quarters / 4) == units.sold_length_text(quarters / 4)


def test_other_quantities_lose_needless_zeros() -> None:
    assert ["24 °C", "30 %", "62.5", "100"] == [
        units.temperature_text(24.0), units.share_text(0.3), units.number_text(62.5), units.number_text(100)
    ]  # fmt: skip


def test_data_is_told_in_powers_of_ten() -> None:
    sizes = (0, 999, 640_000, 1_500_000, 2_100_000_000, 8e12)

    assert ["0 B", "999 B", "640 kB", "1.5 MB", "2.1 GB", "8 TB"] == [units.size_text(size) for size in sizes]


def test_time_is_told_from_microseconds_to_seconds() -> None:
    durations_s = (0, 0.000052, 0.0002, 0.0104, 0.25, 1.0, 2.94, 61)

    assert ["0 s", "52 µs", "200 µs", "10.4 ms", "250 ms", "1 s", "2.94 s", "61 s"] == [
        units.duration_text(duration_s) for duration_s in durations_s
    ]


def test_a_measure_is_told_in_its_unit_and_a_rate_in_both() -> None:
    measures = [(62.0, "m"), (2_500_000_000, "bit/s"), (24.0, "°C"), (5, ""), (2.6, "dB")]

    assert ["62 m", "2.5 Gb/s (312 MB/s)", "24 °C", "5", "2.6 dB"] == [units.measure_text(*each) for each in measures]


def test_what_is_counted_stands_in_the_singular_where_it_is_one() -> None:
    assert ["1 frame", "2 frames", "1 time", "0 times", "1 s"] == [
        units.measure_text(*each) for each in ((1, "frames"), (2, "frames"), (1, "times"), (0, "times"), (1, "s"))
    ]


def test_no_rate_is_told_in_words() -> None:
    assert ("no rate", "0 m") == (units.measure_text(0, "bit/s"), units.measure_text(0, "m"))
