"""Bare numbers, gauges, times of day and prices."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from netaudit.model.plan import Price
from netaudit.plan.scalars.counts import count, gauge_awg, minute_of_day, price, weight

Refusal = Callable[[Callable[[str], object], str], str]

VLAN = count("a VLAN identifier", 1, 4094)
PRIORITY = count("a bridge priority", 0, 61440, 4096)


@pytest.mark.parametrize("text", ["1", "4094", "0042"])
def test_a_count_is_read_in_tens(text: str) -> None:
    assert int(text, 10) == VLAN(text)


def test_a_count_may_go_in_steps() -> None:
    # IEEE Std 802.1D-2004, table 17-2: bridge priorities are 0 to 61440 in steps of 4096.
    assert [0, 4096, 61440] == [PRIORITY(text) for text in ("0", "4096", "61440")]


@pytest.mark.parametrize(
    ("parse", "text", "message"),
    [
        (VLAN, "0", "'0' is out of range: a VLAN identifier is a whole number from 1 to 4094"),
        (VLAN, "4095", "'4095' is out of range: a VLAN identifier is a whole number from 1 to 4094"),
        (VLAN, "-1", "'-1' is negative: a VLAN identifier is a whole number from 1 to 4094"),
        (VLAN, "12 m", "'12 m' is a number with more behind it: a VLAN identifier is a whole number from 1 to 4094, without a unit"),
        (VLAN, "1.5", "'1.5' is not a plain number: a VLAN identifier is a whole number from 1 to 4094, without a sign, point or comma"),
        (VLAN, "9,000", "'9,000' is not a plain number: a VLAN identifier is a whole number from 1 to 4094, without a sign, point or comma"),
        (VLAN, "12 ", "'12 ' ends with a blank: write '12'"),
        (VLAN, "many", "'many' is not a number: a VLAN identifier is a whole number from 1 to 4094"),
        (VLAN, "nan", "'nan' is not a number: a VLAN identifier is a whole number from 1 to 4094"),
        (VLAN, "٣", "'٣' is not a number: a VLAN identifier is a whole number from 1 to 4094"),
        (VLAN, "", "nothing is written here: a VLAN identifier is a whole number from 1 to 4094; leave the key out if you do not know it"),
        (PRIORITY, "100", "'100' is out of range: a bridge priority is a whole number from 0 to 61440 in steps of 4096"),
        (weight, "0", "'0' is out of range: a weight is a bare number over 0, at most 1000"),
        (weight, "1001", "'1001' is out of range: a weight is a bare number over 0, at most 1000"),
        (weight, "-1", "'-1' is negative: a weight is a bare number over 0, at most 1000"),
        (weight, "inf", "'inf' is not a number: a weight is a bare number over 0, at most 1000"),
        (gauge_awg, "25 AWG", "'25 AWG' is not a gauge of stranded cord: write one of 22 AWG, 23 AWG, 24 AWG, 26 AWG, 28 AWG"),
        (gauge_awg, "thin", "'thin' is not a gauge of stranded cord: write one of 22 AWG, 23 AWG, 24 AWG, 26 AWG, 28 AWG"),
        (minute_of_day, "24:00", "'24:00' is not a time of day: write hours and minutes from 00:00 to 23:59, as 07:05"),
        (minute_of_day, "7:05", "'7:05' is not a time of day: write hours and minutes from 00:00 to 23:59, as 07:05"),
        (price, "7.20", "'7.20' is not a price: write an amount and a currency of three capitals, as 7.20 EUR"),
        (price, "-7 EUR", "'-7 EUR' is not a price: write an amount and a currency of three capitals, as 7.20 EUR"),
        (price, "7 eur", "'7 eur' is not a price: write an amount and a currency of three capitals, as 7.20 EUR"),
        (price, "99999999999 EUR", "'99999999999 EUR' makes no sense: a price is at most 1000000000 EUR"),
    ],
)  # fmt: skip
def test_a_number_that_is_not_right_is_told_what_would_be(
    parse: Callable[[str], object], text: str, message: str, refusal: Refusal
) -> None:
    assert message == refusal(parse, text)


def test_a_gauge_may_be_written_bare() -> None:
    assert [26, 26, 26] == [gauge_awg(text) for text in ("26 AWG", "26AWG", "26")]


def test_a_time_of_day_is_minutes_after_midnight() -> None:
    assert [0, 1170, 1439] == [minute_of_day(text) for text in ("00:00", "19:30", "23:59")]


def test_a_weight_may_have_decimals() -> None:
    assert 0.5 == weight("0.5")


def test_a_price_is_exact() -> None:
    assert Price(amount=Decimal("7.20"), currency="EUR") == price("7.20 EUR")
