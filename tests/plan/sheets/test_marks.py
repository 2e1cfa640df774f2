"""Decimal marks in sheets of different countries."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.plan.sheets.marks import with_certain_point, with_point, with_quoted_point


@pytest.mark.parametrize("separator", [";", "\t"])
@pytest.mark.parametrize(
    ("text", "expected"),
    [("7,20 EUR", "7.20 EUR"), ("7.20 EUR", "7.20 EUR"), ("0,500", "0.500"), ("12", "12"), ("2,5G", "2.5G")],
)
def test_a_comma_is_a_decimal_mark_where_it_parts_no_cells(text: str, expected: str, separator: str) -> None:
    # 22nd General Conference on Weights and Measures (2003), Resolution 10: the decimal marker is the point on the
    # line or the comma on the line.
    assert [expected, expected] == [with_point(text, separator), with_certain_point(text, separator)]


def test_where_the_comma_parts_cells_it_is_left_as_it_is() -> None:
    assert ["7,20", "1,234"] == [with_point("7,20", ","), with_certain_point("1,234", ",")]


@pytest.mark.parametrize("text", ["1,234,567", "1.234,50", "1,234.50", ",5", "5,"])
def test_a_number_with_several_marks_is_left_to_its_reader(text: str) -> None:
    assert [text, text] == [with_point(text, ";"), with_certain_point(text, ";")]


@pytest.mark.parametrize("text", ["1,234", "1.234", "12,345 EUR", "1.000M"])
def test_a_mark_that_may_part_thousands_is_doubtful(
    text: str, refusal: Callable[[Callable[[str], object], str], str]
) -> None:
    assert f"'{text}' may be thousands or thousandths: write no mark, or two decimals" == refusal(
        lambda each: with_certain_point(each, ";"), text
    )


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_a_comma_within_a_cell_of_one_number_is_a_decimal_mark_whatever_parts_the_cells(
    separator: str, refusal: Callable[[Callable[[str], object], str], str]
) -> None:
    assert "2.5 Gb/s" == with_quoted_point("2,5 Gb/s", separator)
    assert "'1,000 Mb/s' may be thousands or thousandths: write no mark, or two decimals" == refusal(
        lambda each: with_quoted_point(each, separator), "1,000 Mb/s"
    )


def test_a_point_is_doubtful_only_where_the_comma_is_the_decimal_mark() -> None:
    assert "1.000 Gb/s" == with_quoted_point("1.000 Gb/s", ",")
    with pytest.raises(ValueError, match="thousands or thousandths"):
        with_quoted_point("1.000 Gb/s", ";")
