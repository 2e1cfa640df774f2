"""What published limits say of one rate over one channel: yes, no, or undecided, with the limit that decides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from netaudit.model.finding import Measure
from netaudit.standards.reading import Citation

Answer = Literal["yes", "no", "undecided"]


@dataclass(frozen=True, slots=True)
class Promise:
    """Whether the published limits promise that something works."""

    answer: Answer
    """yes: promised · no: a limit is broken whatever is unknown · undecided: a fact or a firm figure is missing."""
    limit: Measure | None
    """The limit that decides; None where none has a number."""
    source: Citation | None
    """Where that limit comes from; None where no document names one."""
    why: str
    """What it turns on, in one word."""


def firm(refusal: Promise) -> Promise:
    """A refusal as it may be given: one that rests on a remembered or customary figure leaves it undecided."""
    if refusal.source is None or refusal.source.may_fail:
        return refusal
    return replace(refusal, answer="undecided")


def gravest(objections: Sequence[Promise], otherwise: Promise) -> Promise:
    """The first refusal; without one, the first that is undecided; without any, the other one."""
    refusals = [objection for objection in objections if objection.answer == "no"]
    return next(iter((*refusals, *objections)), otherwise)
