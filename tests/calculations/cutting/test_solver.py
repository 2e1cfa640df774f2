"""The choice from loads that are offered: the cheapest, told apart from the best so far."""

from __future__ import annotations

import pytest
from cuttings import never, problem

from netaudit.calculations.cutting.problem import Load
from netaudit.calculations.cutting.solver import Choice
from netaudit.calculations.cutting.watch import Watch

PAIRS = problem(11, 6, 5, 4)
"""Of three runs any two fit into a box."""


def test_parts_and_wholes_are_told_apart() -> None:
    """Three pairs, each taken by half, cut every run once; whole ones need two."""
    with Watch(60.0, never) as watch:
        choice = Choice(PAIRS, watch)
        assert choice.add(Load(PAIRS.largest, pair) for pair in ((0, 1), (0, 2), (1, 2)))
        assert pytest.approx([0.5, 0.5, 0.5]) == [part for part, _ in choice.relaxed().taken]
        whole = choice.whole(most_nodes=100)
        assert whole is not None
        assert 2 == len(whole)
        assert choice.exhausted


def test_a_load_is_offered_once() -> None:
    load = Load(PAIRS.largest, (0, 2))
    with Watch(60.0, never) as watch:
        choice = Choice(PAIRS, watch)
        assert choice.add([load])
        assert not choice.add([load])
    assert [load] == choice.loads


def test_loads_that_leave_a_run_out_are_no_answer() -> None:
    with Watch(60.0, never) as watch:
        choice = Choice(PAIRS, watch)
        choice.add([Load(PAIRS.largest, (0, 2))])
        assert choice.whole(most_nodes=100) is None
        assert choice.exhausted
