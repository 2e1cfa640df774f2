"""What a spreadsheet would take for a formula."""

from __future__ import annotations

import pytest

from netaudit.report.bill.formulas import is_formula


@pytest.mark.parametrize("first", ["=", "+", "-", "@", "\t", "\r", "\n", "\0", "＝", "＋", "－", "＠"])
def test_each_first_character_of_the_published_lists_is_one(first: str) -> None:
    """OWASP, CSV Injection: = + - @ tab, carriage return, line feed and the full-width forms; ASVS 5.0, 1.2.10: null."""
    assert is_formula(f"{first}1")


@pytest.mark.parametrize("blank", [" ", "  ", "\u00a0", "\u3000", "\u200b", "\ufeff", "'", "'' "])
def test_blanks_and_apostrophes_before_it_hide_nothing(blank: str) -> None:
    assert is_formula(f"{blank}=1")


@pytest.mark.parametrize("text", ["", "C01", "a=1", "007", "(1)", "'90s cutting room", "#1", "a - b", "{=1}"])
def test_other_texts_are_none(text: str) -> None:
    assert not is_formula(text)
