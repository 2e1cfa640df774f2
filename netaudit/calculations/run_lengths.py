"""Lengths of cables that a plan does not give, worked out from its racks and routes.

A length is the sum of its parts, each rounded up to the centimetre. Where a part is not known nothing is worked out.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from netaudit.units import length_text

if TYPE_CHECKING:
    from netaudit.calculations.run_ways import Run
    from netaudit.model.bill import RunLength
    from netaudit.model.plan import Plan

_NAMED = 4
"""Cables that are named before the others are counted."""


def run_lengths(plan: Plan) -> tuple[RunLength, ...]:
    """The lengths that follow from the racks and routes of a plan, for cables without one, in plan order.

    Cables that run along routes take these with a way down and slack at each end; cables within a rack take the way
    between their ports with slack at both. All others stay unknown.
    """
    from netaudit.model.bill import RunLength  # noqa: PLC0415 - a check never pays for what bills are made of

    return tuple(RunLength(name, run.length_cm / 100, str(run)) for name, run in _runs(plan).items())


def with_run_lengths(plan: Plan) -> Plan:
    """The plan with every length that follows from its racks and routes; the same one where none does.

    What was worked out stands among what the plan takes for granted.
    """
    lengths_m = {name: run.length_cm / 100 for name, run in _runs(plan).items()}
    if not lengths_m:
        return plan
    cables = {
        name: cable._replace(length_m=lengths_m[name]) if name in lengths_m else cable
        for name, cable in plan.cables.items()
    }
    told = _some([f"{name} {length_text(length_m)}" for name, length_m in lengths_m.items()])
    return replace(plan, cables=cables, assumed=(*plan.assumed, f"lengths worked out from racks and routes: {told}"))


def _runs(plan: Plan) -> Mapping[str, Run]:
    """Cable without a length to its way, where that is known."""
    unmeasured = [cable for cable in plan.cables.values() if cable.length_m is None]
    if not unmeasured:
        return {}
    from netaudit.calculations.run_ways import way  # noqa: PLC0415 - plans with every length never pay for it

    ways = ((cable.name, way(plan, cable)) for cable in unmeasured)
    return {name: found for name, found in ways if found is not None}


def _some(things: Sequence[str]) -> str:
    """The first few things, the others counted."""
    named = ", ".join(things[:_NAMED])
    return named if len(things) <= _NAMED else f"{named} and {len(things) - _NAMED} more"
