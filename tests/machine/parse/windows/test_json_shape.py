"""Nothing of Windows runs here: the shapes are those of ConvertTo-Json as PowerShell's own source (JsonObject.cs) and
its issues describe them, for 5.1 and 7."""

from __future__ import annotations

import pytest

from netaudit.errors import AnswerError
from netaudit.machine.parse.windows.json_shape import flag, parsed, rate_of_text, rows, text, texts, whole

ONE = {"Name": "Ethernet 2"}
TWO = [{"Name": "Ethernet 2"}, {"Name": "WLAN"}]


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (None, ()),
        ([], ()),
        (ONE, (ONE,)),
        (TWO, tuple(TWO)),
        ({"value": TWO, "Count": 2}, tuple(TWO)),
        ([ONE, None, 7, "text", []], (ONE,)),
    ],
)
def test_one_object_an_array_a_wrapped_array_and_nothing_are_all_rows(value: object, expected: object) -> None:
    assert expected == rows(value)


def test_an_object_with_a_property_called_value_is_not_taken_for_a_wrapper() -> None:
    row = {"value": [1], "Count": 1, "Name": "Ethernet 2"}

    assert (row,) == rows(row)


@pytest.mark.parametrize("value", ["text", 7, True])
def test_what_is_no_object_raises_an_answer_error(value: object) -> None:
    with pytest.raises(AnswerError):
        rows(value)


def test_nothing_on_standard_output_is_no_object_rather_than_an_error() -> None:
    assert parsed("") is None
    assert parsed("\ufeff \r\n") is None


def test_a_byte_order_mark_does_not_hide_the_json() -> None:
    assert [1] == parsed("\ufeff[1]")


@pytest.mark.parametrize(
    "words", ["{", "[" * 100_000, '{"a":' + "9" * 5000 + "}", "Get-NetAdapter : Zugriff verweigert"]
)
def test_what_is_no_json_raises_an_answer_error(words: str) -> None:
    with pytest.raises(AnswerError):
        parsed(words)


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (0, 0),
        (2**64 - 1, 2**64 - 1),
        ("10000000000", 10_000_000_000),
        (str(2**64 - 1), 2**64 - 1),
        (2**64, None),
        (-1, None),
        (True, None),
        (1.5, None),
        (1e300, None),
        ("Connected", None),
        ("9" * 21, None),
        ("²", None),
        (None, None),
        ([], None),
        ({"Ticks": 9223372036854775807, "Days": 10675199}, None),
    ],
)
def test_a_whole_number_of_64_bits_may_come_as_text_and_nothing_else_is_one(value: object, expected: object) -> None:
    assert expected == whole({"x": value}, "x")


@pytest.mark.parametrize(
    ("value", "expected"),
    [(True, True), (False, False), (1, True), (0, False), (2, None), ("True", None), (None, None)],
)
def test_a_flag_is_true_or_false_or_one_or_zero(value: object, expected: object) -> None:
    assert expected == flag({"x": value}, "x")


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        ("Up", "Up"),
        ("", None),
        (3, None),
        ({"value": "Up", "DisplayHint": 2, "DateTime": "Mittwoch"}, "Up"),
        ({"value": 3}, None),
        ("half \ud800", "half ?"),
        (None, None),
    ],
)
def test_a_text_may_be_wrapped_and_an_empty_one_is_none(value: object, expected: object) -> None:
    assert expected == text({"x": value}, "x")


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (["0", "6"], ("0", "6")),
        ({"value": ["0", "6"], "Count": 2}, ("0", "6")),
        ("0,6", ("0", "6")),
        ("0", ("0",)),
        ("", ()),
        (None, ()),
        (7, ()),
        ([0, None, "6"], ("6",)),
    ],
)
def test_an_array_of_texts_comes_plain_wrapped_or_joined(value: object, expected: object) -> None:
    assert expected == texts({"x": value}, "x")


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("10 Gbps", 10_000_000_000),
        ("866.7 Mbps", 866_700_000),
        ("866,7 Mbps", 866_700_000),
        ("2.5 Gbps", 2_500_000_000),
        ("54 Mbps", 54_000_000),
        ("9600 bps", 9600),
        ("64 Kbps", 64_000),
        ("1.6 Tbps", 1_600_000_000_000),
        ("0 bps", None),
        ("schnell", None),
        (None, None),
    ],
)
def test_a_rate_in_words_has_a_point_or_a_comma_and_none_is_not_zero(words: str | None, expected: int | None) -> None:
    assert expected == rate_of_text(words)
