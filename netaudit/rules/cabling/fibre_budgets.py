"""Budgets: what a link over fibre may lose, by each physical layer that it may turn out to run, and what it loses."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from netaudit.calculations.fibre import TOLERANCE, FibreRun, typical_loss_db, worst_loss_db
from netaudit.rules.cabling.fibre_links import FibreLink
from netaudit.standards.fibre import FibreReach, fibre_reach


class Budget(NamedTuple):
    """What a channel may lose if it runs one physical layer, and what it loses."""

    row: FibreReach
    run: FibreRun
    promised_db: float
    """Promised with a loss up to here [dB]."""
    possible_db: float
    """Works with a loss up to here [dB]."""

    @property
    def typical_db(self) -> float:
        """Loss with decent joints, or as measured [dB]."""
        return typical_loss_db(self.run, self.row.window_nm)

    @property
    def worst_db(self) -> float:
        """Loss with the worst joints allowed, or as measured [dB]."""
        return worst_loss_db(self.run, self.row.window_nm)

    @property
    def too_high(self) -> bool:
        """Whether even decent joints break it."""
        return self.typical_db > self.possible_db + TOLERANCE

    @property
    def doubtful(self) -> bool:
        """Whether the worst joints allowed break it."""
        return self.worst_db > self.promised_db + TOLERANCE


class Budgets(NamedTuple):
    """The budgets of the physical layers that a link may turn out to run."""

    known: Sequence[Budget]
    """The tightest of each layer that has one."""
    bounding: bool
    """Whether no layer and no grade is missing among them."""
    final: bool
    """Whether, beyond that, nothing will add to the loss."""

    def all_broken(self, broken: Sequence[bool]) -> bool | None:
        """Whether each budget is broken, whatever is unknown; None if that is open."""
        if self.bounding and all(broken):
            return True
        return None if any(broken) or not self.final else False


def budgets_of(subject: FibreLink) -> Budgets | None:
    """None where nothing that it may run is specified for its grades."""
    carrier = subject.carrier
    known = []
    fitting = 0
    for layer in subject.layers:
        rows = [row for run in carrier.fibres if (row := fibre_reach().get((layer, run.grade)))]
        if len(rows) == len(carrier.fibres):
            fitting += 1
            budgets = [one for row, run in zip(rows, carrier.fibres, strict=True) if (one := _budget(row, run))]
            known += sorted(budgets, key=lambda one: one.possible_db - one.worst_db)[:1]
    if not fitting:
        return None
    bounding = carrier.kinds_known and len(known) == fitting
    sized = carrier.length_m is not None or all(run.measured_db is not None for run in carrier.fibres)
    return Budgets(known, bounding, bounding and sized)


def _budget(row: FibreReach, run: FibreRun) -> Budget | None:
    if row.loss_db is None or row.possible_loss_db is None:
        return None
    return Budget(row, run, row.loss_db, row.possible_loss_db)
