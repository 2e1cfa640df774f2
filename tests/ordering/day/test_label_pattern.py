"""The language of label patterns: what is wrong with one, what its pieces are, and what comes of them."""

from __future__ import annotations

from netaudit.ordering.day.label_pattern import LONGEST_QUOTED, MOST_TOLD, Piece, faults, filled, pieces, quoted

KNOWN = ("id", "near", "far")


def test_a_right_pattern_has_no_fault_and_is_words_and_placeholders() -> None:
    pattern = "{id}: {{{near}}}"

    assert () == faults(pattern, KNOWN)
    assert (Piece("", "id"), Piece(": "), Piece("{"), Piece("", "near"), Piece("}")) == pieces(pattern)


def test_each_fault_is_told_once_with_what_may_stand_there() -> None:
    assert faults("{ {ner} {ner}", KNOWN) == (
        "a lone '{' in '{ {ner} {ner}': write '{{' for the brace itself; placeholders are {id}, {near}, {far}",
        "'{ner}' in '{ {ner} {ner}' is no placeholder; did you mean {near}? They are {id}, {near}, {far}",
    )


def test_of_many_faults_the_first_are_told() -> None:
    assert MOST_TOLD == len(faults("".join(f"{{x{number}}}" for number in range(MOST_TOLD + 1)), KNOWN))


def test_a_value_is_never_read_as_a_pattern() -> None:
    assert "{near} > {id}" == filled(pieces("{id} > {near}"), {"id": "{near}", "near": "{id}"}.__getitem__)


def test_the_blank_before_an_empty_value_goes_with_it() -> None:
    assert "C01 - end" == filled(pieces("{id} {near} - end {far}"), {"id": "C01", "near": "", "far": ""}.__getitem__)


def test_a_long_text_is_quoted_in_part() -> None:
    whole, long = "x" * LONGEST_QUOTED, "x" * (LONGEST_QUOTED + 1)

    assert [f"'{whole}'", f"'{whole[1:]}…'"] == [quoted(whole), quoted(long)]
