"""A search ends when its time is up or when somebody stops it, with the best that it has, and leaves nothing behind."""

from __future__ import annotations

import threading
from collections.abc import Callable

import pytest
from cuttings import never, silent, triplets, unpriced

from netaudit.calculations.cutting import cut, solver
from netaudit.calculations.cutting.watch import Over, Watch

HARD = triplets(seed=0, boxes=20)
"""Runs that no quick way cuts best: see the first sentence told."""


class EndlessHighs(solver.QuietHighs):
    """A solver that works until it is told to stop."""

    def __init__(self) -> None:
        self.cancelled = threading.Event()
        super().__init__()

    def run(self) -> None:
        self.cancelled.wait()

    def cancelSolve(self) -> None:  # noqa: N802 - the name is the library's
        self.cancelled.set()


def stop_at(poll: int) -> Callable[[], bool]:
    """Somebody who stops the search at the nth time of asking, and not before."""
    polls = iter(range(poll))
    return lambda: next(polls, None) is None


@pytest.fixture(autouse=True)
def no_thread_is_left() -> object:
    before = threading.active_count()
    yield
    assert before == threading.active_count()


@pytest.mark.parametrize("poll", [0, 1, 10, 30, 60])
def test_a_stopped_search_gives_the_best_until_then(poll: int) -> None:
    cutting = cut(HARD, unpriced(1000), tell=silent, stop=stop_at(poll))
    assert list(range(60)) == sorted(run for box in cutting.boxes for run in box.runs)
    assert (20, True, False) == (cutting.lower_bound, cutting.stopped, cutting.proved)
    assert 20 < len(cutting.boxes) <= 24


@pytest.mark.parametrize("limit_s", [0.0, -1.0, 1e-9])
def test_a_search_without_time_gives_what_the_quick_way_gives(limit_s: float) -> None:
    cutting = cut(HARD, unpriced(1000), limit_s=limit_s, tell=silent, stop=never)
    assert (20, False, False) == (cutting.lower_bound, cutting.stopped, cutting.proved)
    assert 20 < len(cutting.boxes) <= 24


@pytest.mark.parametrize(("limit_s", "poll"), [(0.2, 10**9), (60.0, 100)])
def test_a_solver_that_never_ends_is_ended(monkeypatch: pytest.MonkeyPatch, limit_s: float, poll: int) -> None:
    monkeypatch.setattr(solver, "QuietHighs", EndlessHighs)
    cutting = cut(HARD, unpriced(1000), limit_s=limit_s, tell=silent, stop=stop_at(poll))
    assert ((limit_s == 60.0), False) == (cutting.stopped, cutting.proved)
    assert list(range(60)) == sorted(run for box in cutting.boxes for run in box.runs)


def test_an_interrupt_passes_through_while_the_solver_works(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solver, "QuietHighs", EndlessHighs)
    calm = stop_at(100)

    def interrupt() -> bool:
        if calm():
            raise KeyboardInterrupt
        return False

    with pytest.raises(KeyboardInterrupt):
        cut(HARD, unpriced(1000), tell=silent, stop=interrupt)


def test_nobody_is_asked_where_there_is_nothing_to_search() -> None:
    cutting = cut([1, 2], unpriced(3), tell=silent, stop=lambda: True)
    assert (True, False) == (cutting.proved, cutting.stopped)


def test_progress_is_told_with_what_is_needed_at_least() -> None:
    told: list[str] = []
    cut(HARD, unpriced(1000), tell=told.append, stop=never)
    boxes = [int(line.removesuffix(" boxes so far, at least 20 are needed")) for line in told]
    assert sorted(boxes, reverse=True) == boxes
    assert boxes
    assert min(boxes) > 20, "the packing that settles everything is the answer, and no progress"


def test_the_caller_is_asked_in_the_callers_own_thread() -> None:
    asked: set[int] = set()

    def where() -> bool:
        asked.add(threading.get_ident())
        return False

    cut(HARD, unpriced(1000), tell=silent, stop=where)
    assert {threading.get_ident()} == asked


def test_a_watch_that_was_stopped_stays_stopped() -> None:
    answers = iter([False, True, False])
    with Watch(60.0, lambda: next(answers)) as watch:
        watch.check()
        with pytest.raises(Over):
            watch.check()
        assert watch.over()
        assert watch.stopped


def test_no_limit_is_too_long() -> None:
    with Watch(float("inf"), never) as watch:
        assert not watch.over()
