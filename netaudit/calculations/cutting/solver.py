"""HiGHS at work on the restricted master problem, in a thread of its own while the caller watches.

Source: Huangfu and Hall, Parallelizing the dual revised simplex method, Mathematical Programming Computation 10 (2018).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from threading import Thread
from typing import NamedTuple

import highspy
import numpy as np

from netaudit.calculations.cutting.problem import Load, Problem
from netaudit.calculations.cutting.watch import Over, Watch

POLL_S = 0.05
"""How often the caller looks whether the search has to end [s]."""


class Relaxed(NamedTuple):
    """A solution of the master problem in which a load may be taken in part."""

    taken: list[tuple[float, Load]]
    """How often each load is taken."""
    worth: list[float]
    """What one more run of each kind would cost."""


class QuietHighs(highspy.Highs):
    """HiGHS that writes nothing on the screen, not even while it is made."""

    def enableCallbacks(self) -> None:  # noqa: N802 - the name is the library's
        """Silence it before its first word."""
        self.setOptionValue("output_flag", False)  # noqa: FBT003
        super().enableCallbacks()  # type: ignore[no-untyped-call]


class Master:
    """The restricted master problem: to cut every run at the lowest cost with the loads known so far."""

    def __init__(self, problem: Problem, watch: Watch) -> None:
        self.problem = problem
        self.watch = watch
        self.loads: list[Load] = []
        self._known: set[Load] = set()
        self._unit = float(problem.largest.cost or 1)
        self._highs = QuietHighs()  # type: ignore[no-untyped-call]
        self._highs.HandleUserInterrupt = True
        options: dict[str, float | str] = {
            "threads": 1,
            "parallel": "off",
            "mip_rel_gap": 0.0,
            "mip_abs_gap": 0.5 / self._unit,
        }
        for option, value in options.items():
            self._highs.setOptionValue(option, value)
        empty = np.empty(0, dtype=np.int32)
        for count in problem.counts:
            self._highs.addRow(count, highspy.kHighsInf, 0, empty, np.empty(0))

    def add(self, loads: Iterable[Load]) -> bool:
        """Offer more loads; whether one of them is new.

        Raises:
            Over: The search has to end.

        """
        before = len(self.loads)
        for load in loads:
            self.watch.check()
            if load in self._known:
                continue
            self._known.add(load)
            self.loads.append(load)
            kinds, times = np.unique(np.array(load.pattern, dtype=np.int32), return_counts=True)
            cost = load.size.cost / self._unit
            self._highs.addCol(cost, 0.0, highspy.kHighsInf, len(kinds), kinds, times.astype(np.float64))
        return len(self.loads) > before

    def set_demand(self, counts: Sequence[int]) -> None:
        """Demand other numbers of runs than the problem has."""
        for kind, count in enumerate(counts):
            self._highs.changeRowBounds(kind, count, highspy.kHighsInf)

    def relaxed(self) -> Relaxed:
        """The cheapest choice of parts.

        Raises:
            Over: The search has to end.

        """
        self._run()
        if not self.exhausted:
            raise Over
        solution = self._highs.getSolution()
        return Relaxed(list(zip(solution.col_value, self.loads, strict=True)), list(solution.row_dual))

    def whole(self, most_nodes: int) -> list[Load] | None:
        """The cheapest choice of whole loads, or the best until it had to end; None if there is none."""
        columns = np.arange(len(self.loads), dtype=np.int32)
        whole = np.full(len(self.loads), highspy.HighsVarType.kInteger)
        self._highs.changeColsIntegrality(len(columns), columns, whole)
        self._highs.setOptionValue("mip_max_nodes", most_nodes)
        self._run()
        info = self._highs.getInfo()
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return None
        amounts = self._highs.getSolution().col_value
        return [load for load, amount in zip(self.loads, amounts, strict=True) for _ in range(round(amount))]

    @property
    def exhausted(self) -> bool:
        """Whether the last answer is the last word on these loads."""
        return self._highs.getModelStatus() in (
            highspy.HighsModelStatus.kOptimal,
            highspy.HighsModelStatus.kInfeasible,
        )

    def _run(self) -> None:
        self.watch.check()
        thread = Thread(target=self._highs.run)
        try:
            thread.start()
            while thread.is_alive() and not self.watch.over():
                thread.join(POLL_S)
        finally:
            if thread.is_alive():
                self._highs.cancelSolve()  # type: ignore[no-untyped-call]
                thread.join()
