"""Replies: one answer, one for all or one for each, and everything that is wrong told at once."""

from __future__ import annotations

import pytest

from netaudit.plan.drafting.replies import (
    ClashError,
    Misfit,
    Reader,
    ReplyError,
    each,
    one,
    or_unknown,
    parts,
    plain,
    shown,
    yes_or_no,
)
from netaudit.plan.reading.raw import Mapping, Raw, Sequence

NUMBERS = each(plain(int), "seats", lambda given: given["seats"])
ABC = {"seats": ("a", "b", "c")}


def listed(*items: Raw) -> Sequence:
    raw = Sequence()
    raw.extend(items)
    return raw


def misfits(reader: Reader, raw: Raw) -> list[Misfit]:
    with pytest.raises(ReplyError) as caught:
        reader(raw, ABC)
    return list(caught.value.misfits)


@pytest.mark.parametrize("raw", ["1", " 1 ", listed("1"), "1,1,1", "1, 1 ,1", listed("1", "1", "1")])
def test_one_answer_counts_for_all(raw: Raw) -> None:
    assert (1, 1, 1) == NUMBERS(raw, ABC)


@pytest.mark.parametrize("raw", ["1, 2", "1,2,3,4", listed("1", "2")])
def test_another_number_of_answers_is_refused(raw: Raw) -> None:
    (misfit,) = misfits(NUMBERS, raw)

    assert (None, ("seats",)) == (misfit.nth, misfit.clashes_with)
    assert misfit.message.endswith("answers stand here for 3: give one for all, or one for each of a, b, c")


def test_every_wrong_answer_is_told_at_its_place() -> None:
    assert [0, 2] == [misfit.nth for misfit in misfits(NUMBERS, "x, 1, y")]
    assert [(1, "a text is wanted here, not a list")] == [
        (misfit.nth, misfit.message) for misfit in misfits(NUMBERS, listed("1", listed(), "2"))
    ]


@pytest.mark.parametrize(("raw", "kind"), [(Mapping(), "a mapping"), (Sequence(), "an empty list")])
def test_nothing_at_all_is_refused(raw: Raw, kind: str) -> None:
    assert [f"a text, or a list of texts, is wanted here, not {kind}"] == [
        each.message for each in misfits(NUMBERS, raw)
    ]


def test_a_single_answer_may_hold_commas_and_is_no_list() -> None:
    assert "a, b" == one(plain(str))(" a, b ", {})
    assert [Misfit(None, "one answer is wanted here, not a list")] == misfits(one(plain(str)), listed("a"))


def test_a_clash_names_the_questions_it_is_with() -> None:
    def parse(text: str, _: object) -> None:
        raise ClashError(f"not {text}", "seats", "rooms")

    assert [Misfit(None, "not x", ("seats", "rooms"))] == misfits(one(parse), "x")


@pytest.mark.parametrize("text", ["unknown", "UNKNOWN"])
def test_unknown_is_a_value(text: str) -> None:
    assert or_unknown(int)(text) is None
    with pytest.raises(ValueError, match="or write unknown"):
        or_unknown(int)("x")


@pytest.mark.parametrize(
    ("text", "expected"), [("yes", True), ("Y", True), ("true", True), ("no", False), ("FALSE", False)]
)
def test_yes_and_no_have_several_spellings(text: str, expected: bool) -> None:
    assert expected is yes_or_no(text)


def test_neither_yes_nor_no_is_refused_without_its_controls() -> None:
    with pytest.raises(ValueError, match=r"'a\\x1b\[2J' is neither yes nor no"):
        yes_or_no("a\x1b[2J")


def test_a_text_is_parted_at_commas_and_a_list_is_not() -> None:
    assert ["a", "b c", ""] == parts("a , b c,")
    assert ["a, b"] == parts(listed("a, b"))


def test_many_names_are_counted() -> None:
    assert "1, 2, 3, 4, 5, 6, 7, 8" == shown(tuple("12345678"))
    assert "1, 2, 3, 4, 5, 6, 7, 8 and 1 more" == shown(tuple("123456789"))
