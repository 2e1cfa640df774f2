"""The parser's errors in our own words."""

from __future__ import annotations

import pytest

from netaudit.plan.reading.syntax import indents_with_tab, syntax_message, unreadable_character


def test_the_message_says_what_the_parser_was_at_and_where_that_began() -> None:
    expected = "this is not YAML: while parsing a block mapping that begins in line 3, did not find expected key: "

    assert syntax_message("did not find expected key", "while parsing a block mapping", 3).startswith(expected)


def test_without_context_the_problem_stands_alone() -> None:
    assert "this is not YAML: odd" == syntax_message("odd", "", None)


def test_what_the_parser_quotes_is_escaped() -> None:
    assert "this is not YAML: found '\\x1b'" == syntax_message("found '\x1b'", "", None)


@pytest.mark.parametrize(
    ("text", "expected"),
    [("a:\n§\tb", True), ("a:\r \t§\tb", True), ("a:\n§ \tb", False), ("a: b§\tc", False), ("a§", False)],
)
def test_a_tab_indents_where_only_blanks_stand_before_it_in_its_line(text: str, *, expected: bool) -> None:
    assert expected == indents_with_tab(text.replace("§", ""), text.index("§"))


@pytest.mark.parametrize(
    ("text", "index", "code"), [("a\x00", 1, "U+0000"), ("ab\ufffe", 2, "U+FFFE"), ("\x7f", 0, "U+007F")]
)
def test_a_character_that_no_yaml_file_may_hold_is_found(text: str, index: int, code: str) -> None:
    assert (index, f"the character {code} may not stand in a YAML file: leave it out") == unreadable_character(text)


def test_a_parser_that_refuses_a_good_text_is_told_without_a_place() -> None:
    assert (0, "a character may not stand in a YAML file: leave it out") == unreadable_character("good")
