"""Quantities are read exactly, and every wrong spelling is told the right one."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.plan.scalars.quantities import (
    length_m,
    loss_db,
    power_w,
    rate_bit_per_s,
    sample_rate_hz,
    share,
    size_bytes,
    temperature_c,
    time_s,
)

Refusal = Callable[[Callable[[str], object], str], str]


@pytest.mark.parametrize(
    ("text", "bit_per_s"),
    [
        ("10G", 10_000_000_000),
        ("2.5G", 2_500_000_000),
        ("1200M", 1_200_000_000),
        ("56k", 56_000),
        ("1T", 1_000_000_000_000),
        ("183.5 Mb/s", 183_500_000),
        ("1 Gb/s", 1_000_000_000),
        ("64 kb/s", 64_000),
        ("1 Tb/s", 1_000_000_000_000),
        ("2000 b/s", 2_000),
        ("240 MB/s", 1_920_000_000),
        ("1.2 GB/s", 9_600_000_000),
        ("300 kB/s", 2_400_000),
        ("10\u00a0G", 10_000_000_000),
        ("0.0000333333333 Gb/s", 33_333),
    ],
)
def test_a_rate_is_read_to_the_bit_and_a_byte_has_eight(text: str, bit_per_s: int) -> None:
    assert bit_per_s == rate_bit_per_s(text)


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        # NIST Special Publication 811, appendix B.8: 1 ft = 0.3048 m and 1 in = 2.54 cm, both exact.
        ("1 ft", 0.3048),
        ("100 ft", 30.48),
        ("1 in", 0.0254),
        ("38 m", 38.0),
        ("0.5 m", 0.5),
        ("50 cm", 0.5),
        ("600 mm", 0.6),
        ("10 km", 10_000.0),
        ("200 km", 200_000.0),
        ("1 mm", 0.001),
    ],
)
def test_a_length_is_read_in_metres(text: str, metres: float) -> None:
    assert metres == length_m(text)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        # IEC 80000-13: kB to PB count in thousands, KiB to PiB in 1024.
        ("1 B", 1),
        ("1 kB", 1000),
        ("20 TB", 20 * 10**12),
        ("1.5 PB", 1_500_000_000_000_000),
        ("1 KiB", 1024),
        ("1 TiB", 1_099_511_627_776),
        ("1 PiB", 1_125_899_906_842_624),
    ],
)
def test_a_size_is_read_in_bytes(text: str, size: int) -> None:
    assert size == size_bytes(text)


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("24 °C", 24.0),
        ("24°C", 24.0),
        ("24 C", 24.0),
        ("-40 °C", -40.0),
        # Both scales meet at -40; water freezes at 32 °F (NIST Special Publication 811, appendix B.8).
        ("-40 °F", -40.0),
        ("32 °F", 0.0),
        ("+75.2 °F", 24.0),
    ],
)
def test_a_temperature_is_read_in_degrees_celsius_and_may_be_negative(text: str, celsius: float) -> None:
    assert celsius == temperature_c(text)


@pytest.mark.parametrize(
    ("parse", "text", "value"),
    [
        (power_w, "41 W", 41.0),
        (power_w, "1.5 kW", 1500.0),
        (time_s, "4 h", 14_400.0),
        (time_s, "90 min", 5400.0),
        (time_s, "0.5 s", 0.5),
        (time_s, "2 d", 172_800.0),
        (share, "30%", 0.3),
        (share, "12.5 %", 0.125),
        (share, "0%", 0.0),
        (loss_db, "1.2 dB", 1.2),
        (sample_rate_hz, "48 kHz", 48_000),
        (sample_rate_hz, "44.1 kHz", 44_100),
        (sample_rate_hz, "96000", 96_000),
    ],
)
def test_other_quantities_are_read_in_their_si_unit(parse: Callable[[str], float], text: str, value: float) -> None:
    assert value == parse(text)


@pytest.mark.parametrize(
    ("parse", "text", "message"),
    [
        (rate_bit_per_s, "10", "'10' has no unit: write 10G or 10 Gb/s, 10M or 10 Mb/s, or 10 MB/s"),
        (length_m, "38", "'38' has no unit: write 38 m or 38 cm or 38 mm or 38 km or 38 ft or 38 in"),
        (share, "30", "'30' has no unit: write 30%"),
        (temperature_c, "24", "'24' has no unit: write 24 °C or 24 C or 24 °F"),
    ],
)
def test_a_bare_number_is_told_its_units(
    parse: Callable[[str], float], text: str, message: str, refusal: Refusal
) -> None:
    assert message == refusal(parse, text)


@pytest.mark.parametrize(
    ("text", "write"),
    [
        ("100 Mbps", "100 Mb/s"),
        ("100 MBps", "100 MB/s"),
        ("100 mbps", "100 Mb/s (bits) or 100 MB/s (bytes)"),
        ("183.5 mb/s", "183.5 Mb/s (bits) or 183.5 MB/s (bytes)"),
        ("10 Gb", "10 Gb/s"),
        ("240 MB", "240 MB/s"),
        ("10g", "10G"),
        ("10 Gbit/s", "10 Gb/s"),
        ("10GbE", "10G"),
    ],
)
def test_a_rate_in_the_wrong_case_is_told_how_it_is_written(text: str, write: str, refusal: Refusal) -> None:
    assert refusal(rate_bit_per_s, text).startswith(f"'{text}': '")
    assert refusal(rate_bit_per_s, text).endswith(f" is not how that unit is written: write {write}")


@pytest.mark.parametrize(
    ("parse", "text", "write"),
    [
        (length_m, "12 feet", "12 ft"),
        (length_m, '12"', "12 in"),
        (length_m, "38 metres", "38 m"),
        (length_m, "38 M", "38 m"),
        (size_bytes, "20 tb", "20 TB"),
        (size_bytes, "20 KB", "20 kB"),
        (size_bytes, "20 T", "20 TB"),
        (power_w, "41 watts", "41 W"),
        (time_s, "4 hours", "4 h"),
        (time_s, "5 m", "5 min"),
        (temperature_c, "24 °", "24 °C"),
        (temperature_c, "75 F", "75 °F"),
        (loss_db, "1.2 db", "1.2 dB"),
        (share, "30 percent", "30%"),
    ],
)
def test_a_unit_that_is_nearly_right_is_told_right(
    parse: Callable[[str], float], text: str, write: str, refusal: Refusal
) -> None:
    assert refusal(parse, text).endswith(f" is not how that unit is written: write {write}")


@pytest.mark.parametrize(
    ("parse", "text", "message"),
    [
        (length_m, "38 W", "'38 W': 'W' is not a unit of length: write one of m cm mm km ft in"),
        (power_w, "10 VA", "'10 VA': 'VA' is not a unit of power: write one of W kW"),
        (length_m, "-3 m", "'-3 m' is negative: a length is 1 mm to 200 km"),
        (rate_bit_per_s, "-10G", "'-10G' is negative: a rate is 1 kb/s to 100 Tb/s"),
        (length_m, "0 m", "'0 m' is nothing: a length is above zero, 1 mm to 200 km"),
        (length_m, "0", "'0' is nothing: a length is above zero, 1 mm to 200 km"),
        (rate_bit_per_s, "0", "'0' is nothing: a rate is above zero, 1 kb/s to 100 Tb/s"),
        (rate_bit_per_s, "0.0G", "'0.0G' is nothing: a rate is above zero, 1 kb/s to 100 Tb/s"),
        (rate_bit_per_s, "0 gig", "'0 gig' is nothing: a rate is above zero, 1 kb/s to 100 Tb/s"),
        (power_w, "0", "'0' has no unit: write 0 W or 0 kW"),
        (length_m, "201 km", "'201 km' makes no sense: a length is 1 mm to 200 km"),
        (rate_bit_per_s, "1 b/s", "'1 b/s' makes no sense: a rate is 1 kb/s to 100 Tb/s"),
        (rate_bit_per_s, "101T", "'101T' makes no sense: a rate is 1 kb/s to 100 Tb/s"),
        (temperature_c, "-61 °C", "'-61 °C' makes no sense: a temperature is -60 °C to 90 °C"),
        (temperature_c, "200 °F", "'200 °F' makes no sense: a temperature is -60 °C to 90 °C"),
        (size_bytes, "1001 PB", "'1001 PB' makes no sense: a size is 1 B to 1000 PB"),
        (share, "100%", "'100%' makes no sense: a share is 0% to 99%"),
        (time_s, "0 s", "'0 s' is nothing: a time is above zero, 0.001 s to 366 d"),
        (power_w, "1001 kW", "'1001 kW' makes no sense: a power is 0 W to 1000 kW"),
        (loss_db, "101 dB", "'101 dB' makes no sense: a loss is 0 dB to 100 dB"),
        (sample_rate_hz, "10", "'10 Hz' makes no sense: a sample rate is 1 kHz to 1000 kHz"),
    ],
)
def test_wrong_units_and_absurd_amounts_are_told_the_right_ones(
    parse: Callable[[str], float], text: str, message: str, refusal: Refusal
) -> None:
    assert message == refusal(parse, text)


@pytest.mark.parametrize("text", ["nan m", "NaN", ".nan", "inf m", "-.inf", "infinity"])
def test_what_is_no_number_at_all_is_not_taken_for_one(text: str, refusal: Refusal) -> None:
    expected = f"'{text}' is not a number: a length is 1 mm to 200 km, and one you do not know is left out"

    assert expected == refusal(length_m, text)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "nothing is written here: write a length such as 38 m, or leave the key out"),
        ("5 m ", "'5 m ' ends with a blank: write '5 m'"),
        ("5 m\n", "'5 m\\n' ends with a blank: write '5 m'"),
        (" 5 m", "' 5 m' begins with a blank: write '5 m'"),
        ("5 M ", "'5 M ': 'M' is not how that unit is written: write 5 m"),
        ("long", "'long' is not a length: write a number and a unit, such as 38 m"),
        (".5 m", "'.5 m' is not a length: write a number and a unit, such as 38 m"),
        ("1,5 m", "'1,5 m' is not a number: write it without commas, with a point before decimals, such as 1234.5"),
        ("1_000 m", "'1_000 m' is not a number: write it without commas, with a point before decimals, such as 1234.5"),
        ("1e3 m", "'1e3 m' is written with an exponent: write the number out, such as 38 m"),
        ("٣ m", "'٣ m' is not a length: write a number and a unit, such as 38 m"),
        ("9" * 70 + " m", f"'{'9' * 59}…' has more digits than make sense: a length is 1 mm to 200 km"),
        ("3\x1b[31m", "'3\\x1b[31m': '\\x1b[31m' is not a unit of length: write one of m cm mm km ft in"),
    ],
)
def test_other_spellings_of_numbers_are_told_the_right_one(text: str, message: str, refusal: Refusal) -> None:
    assert message == refusal(length_m, text)


@given(st.decimals(Decimal("0.001"), Decimal(200_000), places=3))
def test_a_length_is_the_float_nearest_to_what_is_written(metres: Decimal) -> None:
    assert float(metres) == length_m(f"{metres:f} m")


@given(st.decimals(Decimal(-50), Decimal(90), places=2))
def test_both_scales_of_temperature_agree_to_the_last_digit(celsius: Decimal) -> None:
    fahrenheit = Fraction(celsius) * 9 / 5 + 32
    written = Decimal(fahrenheit.numerator) / Decimal(fahrenheit.denominator)

    assert float(celsius) == temperature_c(f"{written:f} °F")


@given(
    st.sampled_from(
        [length_m, rate_bit_per_s, size_bytes, power_w, time_s, share, loss_db, temperature_c, sample_rate_hz]
    ),
    st.text(),
)
def test_any_text_is_read_or_refused_with_a_message_that_prints(parse: Callable[[str], float], text: str) -> None:
    message = ""
    try:
        parse(text)
    except ValueError as error:
        message = str(error)

    assert message.isprintable()
    assert len(message) < 400
