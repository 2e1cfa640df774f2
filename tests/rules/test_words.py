"""Words that rules share."""

from __future__ import annotations

from netaudit.rules import words


def test_the_verb_agrees() -> None:
    assert ["is", "are"] == [words.are("a"), words.are("ab")]


def test_steps_are_one_sentence_that_begins_with_a_capital() -> None:
    assert "Use fibre." == words.steps_text(["use fibre"])
    assert "Use fibre, or move W01, or both." == words.steps_text(["use fibre", "move W01", "both"])
