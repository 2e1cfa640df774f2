"""Names and free text: what is let in, and how what is not is shown."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import device_names, free_texts, names

from netaudit.plan.scalars.text import device_name, free_text, name, path_part, printable, quoted

Refusal = Callable[[Callable[[str], object], str], str]


@given(names())
def test_every_allowed_name_comes_back_as_it_is(text: str) -> None:
    assert text == name(text)


@given(device_names())
def test_every_device_name_comes_back_as_it_is(text: str) -> None:
    assert text == device_name(text)


@given(free_texts())
def test_free_text_may_hold_line_ends_and_tabs(text: str) -> None:
    assert text == free_text(text)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "a name is missing here: write 1 to 64 characters"),
        ("x" * 65, f"'{'x' * 59}…' is 65 characters long: a name has at most 64"),
        ("a\x00b", "'a\\x00b' holds the character U+0000, which no name may: leave it out"),
        ("a\nb", "'a\\nb' holds the character U+000A, which no name may: leave it out"),
        ("a\x85b", "'a\\x85b' holds the character U+0085, which no name may: leave it out"),
        ("a\u2028b", "'a\\u2028b' holds the character U+2028, which no name may: leave it out"),
        ("a\u2029b", "'a\\u2029b' holds the character U+2029, which no name may: leave it out"),
        ("a\u202eb", "'a\\u202eb' holds the character U+202E, which no name may: leave it out"),
        ("a\u2066b", "'a\\u2066b' holds the character U+2066, which no name may: leave it out"),
        ("a\ud800b", "'a\\ud800b' holds the character U+D800, which no name may: leave it out"),
        ("a\u200bb", "'a\\u200bb' holds the character U+200B, which no name may: leave it out"),
        ("\ufeff", "'\\ufeff' holds the character U+FEFF, which no name may: leave it out"),
        ("a\u200e", "'a\\u200e' holds the character U+200E, which no name may: leave it out"),
        ("a\u00adb", "'a\\xadb' holds the character U+00AD, which no name may: leave it out"),
        ("a\U000e0041", "'a\\U000e0041' holds the character U+E0041, which no name may: leave it out"),
        ("\u200da", "'\\u200da' holds the character U+200D, which no name may: leave it out"),
        ("a\u200c", "'a\\u200c' holds the character U+200C, which no name may: leave it out"),
        ("a\u200d-b", "'a\\u200d-b' holds the character U+200D, which no name may: leave it out"),
        ("a\u200d\u200db", "'a\\u200d\\u200db' holds the character U+200D, which no name may: leave it out"),
        (" a", "' a' begins with a blank: write 'a'"),
        ("a\u00a0", "'a\\xa0' ends with a blank: write 'a'"),
        (" a ", "' a ' begins with a blank: write 'a'"),
        ("   ", "'   ' is nothing but blanks: write 1 to 64 characters"),
        ("cut-1 > vault", "'cut-1 > vault' holds ' > ', which joins the ends of a path: write 'cut-1 - vault'"),
    ],
)
def test_a_name_that_is_not_allowed_is_quoted_with_a_remedy(text: str, message: str, refusal: Refusal) -> None:
    assert message == refusal(name, text)


@pytest.mark.parametrize("text", ["می\u200cخواهم", "क्\u200dष", "👩\u200d💻"])
def test_a_name_may_hold_joiners_where_words_and_pictures_need_them(text: str) -> None:
    # The Unicode Standard, section 23.2: both joiners are part of the spelling of Persian, of Indic scripts and of emoji.
    assert text == name(text)


def test_a_device_name_holds_no_slash() -> None:
    with pytest.raises(ValueError, match="'a/b' holds '/', which parts device from port: write 'a-b'"):
        device_name("a/b")


def test_a_device_name_is_a_name() -> None:
    with pytest.raises(ValueError, match="a name is missing here"):
        device_name("")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "nothing is written here: write the text, or leave the key out"),
        ("a\x07b", "'a\\x07b' holds the character U+0007: leave it out"),
        ("a\rb", "'a\\rb' holds the character U+000D: leave it out"),
    ],
)
def test_free_text_holds_no_other_control_characters(text: str, message: str, refusal: Refusal) -> None:
    assert message == refusal(free_text, text)


@given(st.text(st.characters()))
def test_what_is_shown_always_prints_on_one_line(text: str) -> None:
    for shown in (printable(text), quoted(text), path_part(text)):
        assert shown.isprintable()
        shown.encode()


def test_a_long_value_is_cut_past_sixty_characters() -> None:
    assert f"'{'y' * 60}'" == quoted("y" * 60)
    assert f"'{'y' * 59}…'" == quoted("y" * 61)


def test_the_longest_right_key_is_not_cut_in_a_path() -> None:
    assert "k" * 64 == path_part("k" * 64)
    assert "k" * 63 + "…" == path_part("k" * 65)
