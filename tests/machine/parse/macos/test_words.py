"""Words that the commands of macOS share."""

from __future__ import annotations

import pytest

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.words import (
    json_of,
    list_of,
    mac_of,
    mapping_of,
    number_of,
    rate_bit_per_s,
    text_of,
    whole,
)


def test_a_mac_without_leading_zeros_is_padded() -> None:
    """Arp, ndp and netstat -r print 2:0:5e:a:b:c, ifconfig and netstat -i print the zeros (RFC 9542)."""
    assert "02:00:5e:0a:0b:0c" == mac_of("2:0:5e:a:b:c") == mac_of("02:00:5E:0A:0B:0C")


@pytest.mark.parametrize("text", ["(incomplete)", "N/A", "none", "2:0:5e:a:b", "2:0:5e:a:b:c:d", "2:0:5e:a:b:xx"])
def test_what_is_no_mac_is_none(text: str) -> None:
    assert mac_of(text) is None


@pytest.mark.parametrize(
    ("text", "expected"), [("0", 0), ("7340032123", 7340032123), ("-", None), ("", None), (None, None), ("²", None)]
)
def test_a_whole_number_is_of_plain_digits(text: str | None, expected: int | None) -> None:
    assert expected == whole(text)


def test_a_number_too_long_to_be_one_is_none() -> None:
    assert whole("9" * 5000) is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("10.00 Gbps", 10_000_000_000),
        ("88.31 Mbps [eff] / 146.08 Mbps", 88_310_000),
        ("866.7 Mb", 866_700_000),
        ("5 Gb/s", 5_000_000_000),
        ("12 Kbps", 12_000),
        ("480 bps", 480),
        ("N/A", None),
        ("", None),
    ],
)
def test_a_rate_is_the_first_one_in_decimal_units(text: str, expected: int | None) -> None:
    assert expected == rate_bit_per_s(text)


@pytest.mark.parametrize("text", ["", "{", "smbutil: unknown option", "[" * 100_000, "1" * 5000])
def test_what_is_no_json_is_an_answer_that_cannot_be_read(text: str) -> None:
    with pytest.raises(AnswerError, match="smbutil answered in a form that cannot be read"):
        json_of(text, "smbutil")


def test_json_of_another_shape_is_empty() -> None:
    assert {} == mapping_of([])
    assert [] == list_of({})
    assert text_of(5) is None
    assert text_of("") is None


@pytest.mark.parametrize(
    ("value", "expected"),
    [(5, 5), ("5", 5), (0, 0), (1, 1), (True, None), (-5, None), ("-5", None), (5.5, None), ([], None)],
)
def test_a_number_in_json_may_stand_as_text(value: object, expected: int | None) -> None:
    assert expected == number_of(value)
