"""How single facts are spelt."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from observations import EN5

from netaudit.report.probe.spelling import begun, clean, link_rate_text, yes_no


@given(st.text())
def test_a_cleaned_text_is_one_line_that_no_terminal_obeys(text: str) -> None:
    assert clean(text).isprintable()
    assert (text == clean(text)) == text.isprintable()


def test_a_file_name_that_is_no_text_is_written_out() -> None:
    assert r"caf\udce9 café" == clean(b"caf\xe9".decode("utf-8", "surrogateescape") + " café")


def test_a_rate_is_told_apart_from_a_made_up_and_an_unknown_one() -> None:
    assert "10 Gb/s (1250 MB/s)" == link_rate_text(EN5)
    assert "a made-up 10 Gb/s (1250 MB/s)" == link_rate_text(EN5._replace(made_up_rate=True))
    assert (
        link_rate_text(None)
        == link_rate_text(EN5._replace(rate_bit_per_s=None))
        == ("a rate that this system does not tell")
    )


def test_unknown_is_neither_yes_nor_no() -> None:
    assert ["yes", "no", "not known"] == [yes_no(value) for value in (True, False, None)]
    assert ["up", "none"] == [yes_no(value, "up", "none") for value in (True, False)]


@pytest.mark.parametrize(
    ("text", "begins"),
    [
        ("the traffic goes", "The traffic goes"),
        ("reading runs", "Reading runs"),
        ("en5 is dead", "en5 is dead"),
        ("The end", "The end"),
    ],
)
def test_a_sentence_begins_with_a_capital_unless_a_name_of_the_room_begins_it(text: str, begins: str) -> None:
    assert begins == begun(text)
