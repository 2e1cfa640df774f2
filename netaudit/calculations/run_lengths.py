"""Lengths of cables that a plan does not give, worked out from its racks and routes.

A length is the sum of its parts, each rounded up to the centimetre. Where a part is not known nothing is worked out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from netaudit.listing import first_few
from netaudit.units import length_text

if TYPE_CHECKING:
    from netaudit.calculations.run_ways import Run
    from netaudit.model.bill import RunLength
    from netaudit.model.plan import Plan


class Measured(NamedTuple):
    """A plan with its lengths worked out."""

    plan: Plan
    """The plan with every length that follows from its racks and routes; the same one where none does."""
    lengths: tuple[RunLength, ...]
    """What was worked out, in plan order."""


def measured(plan: Plan) -> Measured:
    """The plan with the lengths that follow from its racks and routes, and how each of them came about.

    Cables that run along routes take these with a way down and slack at each end; cables within a rack take the way
    between their ports with slack at both. All others stay unknown.
    """
    from netaudit.model.bill import RunLength  # noqa: PLC0415 - a check never pays for what bills are made of

    runs = _runs(plan)
    lengths = (RunLength(name, run.length_cm / 100, str(run)) for name, run in runs.items())
    return Measured(_completed(plan, runs), tuple(lengths))


def with_run_lengths(plan: Plan) -> Plan:
    """The plan alone with the lengths that follow from its racks and routes; the same one where none does."""
    return _completed(plan, _runs(plan))


def _completed(plan: Plan, runs: Mapping[str, Run]) -> Plan:
    """The plan with the lengths of some runs, which stand among what it takes for granted."""
    if not runs:
        return plan
    lengths_m = {name: run.length_cm / 100 for name, run in runs.items()}
    cables = {
        name: cable._replace(length_m=lengths_m[name]) if name in lengths_m else cable
        for name, cable in plan.cables.items()
    }
    told = first_few(f"{name} {length_text(length_m)}" for name, length_m in lengths_m.items())
    return replace(plan, cables=cables, assumed=(*plan.assumed, f"lengths worked out from racks and routes: {told}"))


def _runs(plan: Plan) -> Mapping[str, Run]:
    """Cable without a length to its way, where that is known."""
    unmeasured = [cable for cable in plan.cables.values() if cable.length_m is None]
    if not unmeasured:
        return {}
    from netaudit.calculations.run_ways import way  # noqa: PLC0415 - plans with every length never pay for it

    ways = ((cable.name, way(plan, cable)) for cable in unmeasured)
    return {name: found for name, found in ways if found is not None}
