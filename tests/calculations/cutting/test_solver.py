"""The master from loads that are offered: the cheapest, told apart from the best so far."""

from __future__ import annotations

import pytest
from cuttings import never, problem

from netaudit.calculations.cutting.problem import Load
from netaudit.calculations.cutting.solver import Master
from netaudit.calculations.cutting.watch import Watch

PAIRS = problem(11, 6, 5, 4)
"""Of three runs any two fit into a box."""


def test_parts_and_wholes_are_told_apart() -> None:
    """Three pairs, each taken by half, cut every run once; whole ones need two."""
    with Watch(60.0, never) as watch:
        master = Master(PAIRS, watch)
        assert master.add(Load(PAIRS.largest, pair) for pair in ((0, 1), (0, 2), (1, 2)))
        assert pytest.approx([0.5, 0.5, 0.5]) == [part for part, _ in master.relaxed().taken]
        whole = master.whole(most_nodes=100)
        assert whole is not None
        assert 2 == len(whole)
        assert master.exhausted


def test_a_load_is_offered_once() -> None:
    load = Load(PAIRS.largest, (0, 2))
    with Watch(60.0, never) as watch:
        master = Master(PAIRS, watch)
        assert master.add([load])
        assert not master.add([load])
    assert [load] == master.loads


def test_loads_that_leave_a_run_out_are_no_answer() -> None:
    with Watch(60.0, never) as watch:
        master = Master(PAIRS, watch)
        master.add([Load(PAIRS.largest, (0, 2))])
        assert master.whole(most_nodes=100) is None
        assert master.exhausted
