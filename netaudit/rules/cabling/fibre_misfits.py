"""Misfits: fibres that do not go together, that modules are not made for, or of which there are too few."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.listing import either, listed
from netaudit.model.finding import Measure
from netaudit.model.place import Place, port_place
from netaudit.model.plan import Cable
from netaudit.rules.cabling.channels import led_by, longest_first
from netaudit.rules.cabling.fibre_links import FibreLink, farthest, other_layer, rows_of
from netaudit.rules.words import are
from netaudit.standards.fibre import core_um, fibre_reach, unequal_cores
from netaudit.standards.optics import optics
from netaudit.units import length_text, measure_text, number_text


class Misfit(NamedTuple):
    """Parts of a run of fibre that do not suit each other."""

    where: tuple[Place, ...]
    """The cables to replace first, then the others."""
    message: str
    remedy: str
    source: Citation
    measured: Measure | None = None
    limit: Measure | None = None


def known_cables(subject: FibreLink) -> list[Cable]:
    """The cables of a link whose grade is known."""
    return [cable for cable in subject.cables if cable.category != "unknown"]


def unfit_cables(subject: FibreLink, layer: str) -> list[Cable]:
    """The cables of a known grade that a physical layer is not specified for."""
    return [cable for cable in known_cables(subject) if (layer, cable.category) not in fibre_reach()]


def unequal(subject: FibreLink) -> Misfit | None:
    """Fibres of unequal cores in one run."""
    joint = unequal_cores(subject.carrier.kinds)
    if joint is None:
        return None
    odd = _odd_cables(subject)
    others = either(dict.fromkeys(cable.category for cable in known_cables(subject) if cable not in odd))
    kinds = listed(f"{cable.name} of {cable.category}" for cable in known_cables(subject))
    return Misfit(
        where=led_by(longest_first(odd), subject.channel),
        message=f"{kinds} are joined, with cores of {number_text(joint.wider_um)} and "
        f"{number_text(joint.narrower_um)} µm: light on its way into the narrower one loses about "
        f"{measure_text(joint.loss_db, 'dB')}",
        remedy=f"Replace {listed(odd)} by {others}, so that one kind of fibre runs from end to end.",
        source=joint.source,
    )


def _odd_cables(subject: FibreLink) -> list[Cable]:
    """The cables to replace where cores differ: those that the modules cannot use, or else the shorter part."""
    for module in subject.modules:
        unfit = unfit_cables(subject, module)
        if 0 < len(unfit) < len(known_cables(subject)):
            return unfit
    parts: dict[float, list[Cable]] = {}
    for cable in known_cables(subject):
        parts.setdefault(core_um()[cable.category], []).append(cable)
    return min(parts.values(), key=_most_m)


def _most_m(cables: Sequence[Cable]) -> float:
    """The most that cables may measure together [m], which is no bound where a length is unknown."""
    return sum(math.inf if cable.length_m is None else cable.length_m for cable in cables)


def unfit_grade(subject: FibreLink) -> Misfit | None:
    """Fibre of a grade that is not specified for the module at an end, or for any module that the ports can run.

    Of two modules that do not belong together only the one that stays counts.
    """
    named = subject.modules
    layers = sorted(named) if named else subject.layers
    unfit = [layer for layer in layers if unfit_cables(subject, layer)]
    if not unfit or (not named and len(unfit) < len(layers)):
        return None
    layer = unfit[0]
    cables, rows = unfit_cables(subject, layer), rows_of(layer)
    ports = [port_place(port) for port, module in subject.ends if module is None or module in unfit]
    kinds = listed(dict.fromkeys(cable.category for cable in cables))
    made = f"{layer} is made for {either(row.grade for row in rows)}" if named else "no module at that rate is for it"
    return Misfit(
        where=(*led_by(longest_first(cables), subject.channel), *ports),
        message=f"{listed(cables)} {are(cables)} {kinds}; {made}",
        remedy=_matching(subject, cables, layer),
        source=next((row.source for row in rows if row.source.may_fail), rows[0].source),
    )


def _matching(subject: FibreLink, cables: Sequence[Cable], layer: str) -> str:
    """Modules that suit the fibre where there are such, since they are quicker changed than fibre; else the fibre."""
    length_m = subject.carrier.least_m
    other = other_layer(layer, subject.carrier.kinds, length_m)
    better = farthest(rows_of(layer), length_m)
    steps = []
    if other is not None:
        modules = f"put {other.phy} modules into {subject.link.near} and {subject.link.far}"
        steps.append(f"{modules}, good to {length_text(other.reach_m)} over {other.grade}")
    if better is not None:
        reaches = f"over which {layer} reaches {length_text(better.reach_m)}"
        steps.append(f"replace {listed(cables)} by {better.grade}, {reaches}")
    text = "; or ".join(steps) or f"use fibre and modules made for {length_text(length_m)}"
    return f"{text[0].upper()}{text[1:]}."


def too_few(subject: FibreLink) -> Misfit | None:
    """Cables that are said to have fewer fibres in use than the module at an end needs."""
    optic = most_fibres(subject)
    short = [] if optic is None else [one for one in subject.cables if one.fibres is not None and one.fibres < optic[1]]
    if optic is None or not short:
        return None
    layer, needed = optic
    least = min(cable.fibres for cable in short if cable.fibres is not None)
    return Misfit(
        where=led_by(longest_first(short), subject.channel),
        message=f"{listed(short)} {'has' if len(short) == 1 else 'have'} {_fibres(least)} in use; "
        f"{layer} needs {needed}",
        remedy=f"Use {needed} fibres of {listed(short)}, or a cable that has as many{_fewer(subject, layer, least)}.",
        source=optics()[layer].source,
        measured=Measure(least, ""),
        limit=Measure(needed, ""),
    )


def most_fibres(subject: FibreLink) -> tuple[str, int] | None:
    """The module at an end that needs the most fibres, and how many.

    None where no module is named, and for a breakout, whose cables split them.
    """
    named = [optics()[module] for module in subject.modules]
    if not named or subject.channel.lanes > 1:
        return None
    optic = max(named, key=lambda one: one.fibres)
    return optic.phy, optic.fibres


def _fewer(subject: FibreLink, layer: str, strands: int) -> str:
    """The modules at the same rate that the fibres in use are enough for, as the end of a sentence."""
    other = other_layer(layer, subject.carrier.kinds, subject.carrier.least_m)
    if other is None or optics()[other.phy].fibres > strands:
        return ""
    return f"; or put {other.phy} modules into both ends, which need {_fibres(optics()[other.phy].fibres)}"


def _fibres(count: int) -> str:
    return "1 fibre" if count == 1 else f"{count} fibres"
