"""Options with a unit are read as a plan's quantities are."""

from __future__ import annotations

import click
import pytest

from netaudit.cli.quantity import Quantity, length_m, length_or_zero_m, share


@pytest.mark.parametrize(("text", "expected"), [("0.5 m", 0.5), ("20 in", 0.508), ("305 m", 305.0)])
def test_a_length_needs_its_unit(text: str, expected: float) -> None:
    assert expected == Quantity("length", length_m).convert(text, None, None)


@pytest.mark.parametrize("text", ["0 m", "0m", "0.0 ft", "0 in"])
def test_a_length_that_may_be_nothing_may_be_nothing(text: str) -> None:
    assert 0.0 == Quantity("length", length_or_zero_m).convert(text, None, None)


@pytest.mark.parametrize("text", ["0", "5", "m", "-1 m", "1e3 m", "nan m", ""])
def test_what_is_no_length_is_told_in_the_words_of_a_plan(text: str) -> None:
    with pytest.raises(click.BadParameter, match=r"length|unit|negative|written|nothing"):
        Quantity("length", length_or_zero_m).convert(text, None, None)


def test_a_share_is_per_cent() -> None:
    assert [0.1, 1.5, 0.0] == [Quantity("share", share).convert(text, None, None) for text in ("10%", "150 %", "0%")]


@pytest.mark.parametrize("text", ["10", "-1%", "1001%", "9999%", "nan%", "1e2%", "", "٣%"])
def test_what_is_no_share_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(click.BadParameter, match="such as 10%"):
        Quantity("share", share).convert(text, None, None)


def test_a_value_that_is_read_already_stays() -> None:
    assert 0.1 == Quantity("share", share).convert(0.1, None, None)
