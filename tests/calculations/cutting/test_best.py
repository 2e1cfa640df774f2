"""The best so far: it only gets cheaper, its bound only rises, and progress is told until all is settled."""

from __future__ import annotations

from cuttings import problem

from netaudit.calculations.cutting.best import Best, taken_from, without_surplus
from netaudit.calculations.cutting.problem import Packing

ASKED = problem(100, 50, 50, 50, 50)
FOUR: Packing = tuple(ASKED.load((0,)) for _ in range(4))
THREE: Packing = (ASKED.load((0, 0)), *FOUR[:2])
TWO: Packing = (ASKED.load((0, 0)),) * 2


def test_only_a_cheaper_packing_is_kept_and_told() -> None:
    told: list[tuple[int, int]] = []
    best = Best(FOUR, 1, lambda packing, bound: told.append((len(packing), bound)))
    best.offer(THREE)
    best.offer(FOUR)
    best.offer(THREE)

    assert (THREE, 3, False) == (best.packing, best.cost, best.proved)
    assert [(3, 1)] == told


def test_what_settles_everything_is_no_progress_any_more() -> None:
    told: list[int] = []
    best = Best(FOUR, 2, lambda packing, _: told.append(len(packing)))
    best.offer(TWO)

    assert best.proved
    assert [] == told


def test_a_bound_never_falls_and_never_passes_what_was_found() -> None:
    best = Best(THREE, 1, lambda *_: None)
    for bound, expected in ((2, 2), (1, 2), (9, 3)):
        best.raise_bound(bound)

        assert expected == best.bound
    assert best.proved


def test_runs_that_are_cut_too_often_are_left_out() -> None:
    asked = problem(100, 50, 50, 30)
    surplus = [asked.load((0, 0)), asked.load((0, 1)), asked.load((1,))]

    assert [(0, 0), (1,)] == [load.pattern for load in without_surplus(asked, surplus)]


def test_what_is_taken_is_left_no_more() -> None:
    left = [1, 2]

    assert (0, 1) == taken_from(left, (0, 0, 1))
    assert [0, 1] == left
