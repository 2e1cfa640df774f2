"""The search to the end: the packing and the bound meet, also by groups, and never cross the truth."""

from __future__ import annotations

from decimal import Decimal

import pytest
from cuttings import lowest, never, problem, triplets
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting import exact
from netaudit.calculations.cutting.best import Best
from netaudit.calculations.cutting.exact import search
from netaudit.calculations.cutting.problem import Problem
from netaudit.calculations.cutting.quick import first_packing
from netaudit.calculations.cutting.watch import Watch


def searched(asked: Problem) -> Best:
    """The best that the search finds from scratch: it is told no bound."""
    best = Best(first_packing(asked), 1, lambda *_: None)
    with Watch(60.0, never) as watch:
        search(asked, best, watch)
    return best


def test_triplets_are_packed_without_waste_and_that_is_proved() -> None:
    best = searched(problem(1000, *triplets(seed=2, boxes=20)))

    assert (20, 20) == (best.cost, best.bound)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(20, 60), min_size=1, max_size=9))
def test_packing_and_bound_meet_at_what_a_table_of_all_sets_finds(runs: list[int]) -> None:
    best = searched(problem(100, *runs))
    fewest = lowest(runs, lambda used: Decimal(1) if used <= 100 else None)

    assert fewest == best.cost == best.bound


def test_many_kinds_are_taken_together_and_the_bound_stays_sound(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = problem(1000, *triplets(seed=4, boxes=20))
    monkeypatch.setattr(exact, "FEW_KINDS", 5)
    monkeypatch.setattr(exact, "MOST_KINDS", 5)
    best = searched(asked)

    assert 18 <= best.bound <= 20 <= best.cost


def test_where_too_many_loads_are_columns_nothing_is_claimed(monkeypatch: pytest.MonkeyPatch) -> None:
    def too_many(*_: object) -> object:
        raise exact.TooMany

    monkeypatch.setattr(exact, "columns_within", too_many)
    monkeypatch.setattr(exact, "FIRST_NODES", 0)
    monkeypatch.setattr(exact, "dive", lambda *_: None)
    best = searched(problem(1000, *triplets(seed=0, boxes=20)))

    assert (20, False) == (best.bound, best.proved)
