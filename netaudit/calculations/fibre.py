"""Fibre: what a channel loses, and what the published limits promise over it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from netaudit.calculations.promise import Promise, firm, gravest
from netaudit.model.finding import Measure
from netaudit.standards.fibre import FibreReach, fibre_attenuation, fibre_reach, joints
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys
from netaudit.standards.reading import Citation

TOLERANCE = 1e-9
"""Lengths [m] and losses [dB] that differ by less are equal: 0.4 x 3.5 + 2 x 0.75 is 2.9000000000000004 here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FibreRun:
    """What decides about a channel of fibre."""

    grade: str
    """OM1 to OM5, OS1, OS1a, OS2."""
    least_m: float
    """Length of the parts whose length is known [m]."""
    length_m: float | None
    """Length [m]; None if any part's is unknown."""
    pairs: int
    """Mated pairs of connectors at panels and outlets; the plugs at the two ends do not count."""
    splices: int
    measured_db: float | None = None
    """Loss of the whole channel as measured [dB]; None if not all of it was."""
    parts_db: float = 0.0
    """Loss of those of its cables that were measured, where not all were [dB]."""
    parts_m: float = 0.0
    """Their length, as far as it is known [m]."""
    strands: int | None = None
    """The fewest fibres that one of its cables is said to have in use; None if none says."""


def fibre_loss_db(run: FibreRun, attenuation_db_per_km: float, *, pair_db: float, splice_db: float) -> float:
    """Loss of the known length with all joints, parts that were measured as they were [dB].

    Parameters: the channel; what the fibre loses [dB/km]; what a pair of connectors and a splice lose [dB each].
    """
    fibre_db = (run.least_m - run.parts_m) / 1000 * attenuation_db_per_km
    return run.parts_db + fibre_db + run.pairs * pair_db + run.splices * splice_db


def worst_loss_db(run: FibreRun, window_nm: int) -> float:
    """The most that the known length loses at a wavelength [nm], in dB: as measured, or with the worst joints allowed.

    KeyError for a grade and wavelength of which no figure is published.
    """
    if run.measured_db is not None:
        return run.measured_db
    pair, splice = joints()["pair"], joints()["splice"]
    fibre = fibre_attenuation()[run.grade, window_nm]
    return fibre_loss_db(run, fibre.worst_db_per_km, pair_db=pair.worst_db, splice_db=splice.worst_db)


def typical_loss_db(run: FibreRun, window_nm: int) -> float:
    """What the known length loses at a wavelength [nm], in dB: as measured, or with decent fibre and joints.

    Where some of its cables were measured, the joints may be in what was measured and are not counted again.
    KeyError for a grade and wavelength of which no figure is published.
    """
    if run.measured_db is not None:
        return run.measured_db
    pair, splice = joints()["pair"], joints()["splice"]
    fibre = fibre_attenuation()[run.grade, window_nm]
    attenuation_db_per_km = fibre.typical_db_per_km or fibre.worst_db_per_km
    counted = 0.0 if run.parts_db else 1.0
    pair_db, splice_db = counted * pair.typical_db, counted * splice.typical_db
    return fibre_loss_db(run, attenuation_db_per_km, pair_db=pair_db, splice_db=splice_db)


def fibre_promise(run: FibreRun, phy: str) -> Promise:
    """Whether the published limits promise a physical layer over a channel.

    It turns on `length`, `reach` (works only on a link engineered for it), `loss`, `grade` (not specified for it),
    `fibres` (fewer than the module needs) or `phy` (in no table). A loss that only the worst joints break, and a
    refusal that rests on a remembered figure, are undecided and keep their limit; an unknown length is undecided
    without one.
    """
    layer = phys().get(phy)
    if layer is None:
        return Promise("undecided", None, None, "phy")
    row = fibre_reach().get((phy, run.grade))
    if row is None:
        return firm(Promise("no", None, layer.source, "grade"))
    optic = optics()[phy]
    if run.strands is not None and run.strands < optic.fibres:
        return firm(Promise("no", Measure(optic.fibres, ""), optic.source, "fibres"))
    kept = Promise("yes", Measure(row.reach_m, "m"), row.source, "length")
    return gravest([*_length_objections(run, row), *_loss_objections(run, row)], kept)


def _length_objections(run: FibreRun, row: FibreReach) -> Iterator[Promise]:
    if run.least_m > row.possible_m + TOLERANCE:
        yield firm(Promise("no", Measure(row.possible_m, "m"), row.source, "length"))
    elif run.least_m > row.reach_m + TOLERANCE:
        yield Promise("undecided", Measure(row.reach_m, "m"), row.source, "reach")
    elif run.length_m is None:
        yield Promise("undecided", None, row.source, "length")


def _loss_objections(run: FibreRun, row: FibreReach) -> Iterator[Promise]:
    if row.loss_db is None or row.possible_loss_db is None:
        yield Promise("undecided", None, row.source, "loss")
    elif typical_loss_db(run, row.window_nm) > row.possible_loss_db + TOLERANCE:
        yield firm(Promise("no", Measure(row.possible_loss_db, "dB"), loss_source(run, row), "loss"))
    elif worst_loss_db(run, row.window_nm) > row.loss_db + TOLERANCE:
        yield Promise("undecided", Measure(row.loss_db, "dB"), row.loss_source, "loss")


def loss_source(run: FibreRun, row: FibreReach) -> Citation | None:
    """What a refused loss rests on: the budget, or the loss of the fibre where that is the weaker figure."""
    if run.measured_db is not None:
        return row.loss_source
    fibre = fibre_attenuation()[run.grade, row.window_nm]
    attenuation = fibre.typical_source or fibre.source
    return row.loss_source if attenuation.may_fail else attenuation
