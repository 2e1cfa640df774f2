"""Names in a row."""

from __future__ import annotations

from netaudit.rules import words


def test_names_stand_in_a_row() -> None:
    assert ["a", "a and b", "a, b and c"] == [words.listed(names) for names in ("a", "ab", "abc")]
    assert "a, b or c" == words.either("abc")


def test_many_names_are_counted_after_the_eighth() -> None:
    assert "a, b, c, d, e, f, g and h" == words.listed("abcdefgh")
    assert "a, b, c, d, e, f, g, h and 1 more" == words.listed("abcdefghi")
    assert "a, b, c, d, e, f, g, h and 3 more" == words.listed("abcdefghijk")


def test_the_verb_agrees() -> None:
    assert ["is", "are"] == [words.are("a"), words.are("ab")]


def test_steps_are_one_sentence_that_begins_with_a_capital() -> None:
    assert "Use fibre." == words.steps_text(["use fibre"])
    assert "Use fibre, or move W01, or both." == words.steps_text(["use fibre", "move W01", "both"])
