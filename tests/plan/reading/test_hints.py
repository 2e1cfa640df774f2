"""The nearest right spelling of a wrong word, among few and among very many."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from netaudit.plan.reading import hints as module
from netaudit.plan.reading.hints import COMPARED, Hints

SEATS = tuple(f"seat-{number}" for number in range(20 * COMPARED))


class Counted(tuple[str, ...]):
    """Right spellings that count how often they are gone through."""

    passes = 0

    def __iter__(self) -> Iterator[str]:
        self.passes += 1
        return super().__iter__()


def test_the_nearest_of_a_few_is_offered() -> None:
    assert "; did you mean 'cut-1'?" == Hints().hint("cut-q", ("vault", "cut-1"))


def test_nothing_is_offered_where_nothing_comes_near() -> None:
    assert "" == Hints().hint("sofa", ("vault", "cut-1"))
    assert "" == Hints().hint("sofa", SEATS)


@pytest.mark.parametrize("slip", ["seat-1341x", "seat-134l", "seat1341", "saet-1341"])
def test_of_very_many_right_spellings_a_near_one_is_still_found(slip: str) -> None:
    assert "; did you mean 'seat-" in Hints().hint(slip, SEATS)


def test_of_very_many_right_spellings_the_nearest_is_found_where_only_the_end_is_wrong() -> None:
    assert "; did you mean 'seat-1341'?" == Hints().hint("seat-1341x", SEATS)


def test_a_word_too_long_to_be_a_slip_is_not_compared() -> None:
    assert "" == Hints().hint("x" * 65, ("x" * 64,))


def test_very_many_right_spellings_are_gone_through_once_and_few_of_them_compared(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    compared: list[int] = []
    monkeypatch.setattr(module, "nearest", lambda _word, known: compared.append(len(known)))
    known, hints = Counted(SEATS), Hints()
    for number in range(200):
        hints.hint(f"saet-{number}", known)

    assert 1 == known.passes
    assert 200 == len(compared)
    assert max(compared) <= COMPARED
