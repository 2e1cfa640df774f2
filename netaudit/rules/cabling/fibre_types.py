"""The rules of fibre on kinds: do the fibres and the modules at their two ends go together."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.place import cable_place, port_place
from netaudit.rules.cabling.fibre_links import CARE, FibreLink, fibre_links
from netaudit.rules.cabling.fibre_misfits import most_fibres, too_few, unequal, unfit_grade
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import missing_fact
from netaudit.rules.optics import alike
from netaudit.rules.rule import Rule
from netaudit.standards.fibre import core_joints, fibre_reach
from netaudit.standards.optics import optics

DUPLEX = 2
"""Fibres that a cable has in use where the plan does not say."""


def _judge_type(subject: FibreLink, facts: Facts) -> Judgement:
    misfit = unequal(subject) or unfit_grade(subject) or too_few(subject)
    if misfit is not None:
        return FIBRE_TYPE_MISMATCH.finding(
            *misfit.where,
            message=misfit.message,
            remedy=misfit.remedy,
            source=misfit.source,
            measured=misfit.measured,
            limit=misfit.limit,
        )
    modules = subject.carrier.modules
    if not subject.carrier.kinds_known or modules == (None, None):
        missing = missing_fact(subject.link, facts.plan)
        return FIBRE_TYPE_MISMATCH.not_checked(missing.where, reason=missing.reason, decides=missing.decides)
    return _count_open(subject)


def _count_open(subject: FibreLink) -> Judgement:
    """Not checked where the number of fibres is not given and the usual two are too few."""
    silent = [cable for cable in subject.cables if cable.fibres is None]
    needs = most_fibres(subject)
    if needs is None or needs[1] <= DUPLEX or not silent:
        return None
    layer, count = needs
    return FIBRE_TYPE_MISMATCH.not_checked(
        cable_place(silent[0].name),
        reason=f"How many fibres of {listed(silent)} are in use is not given",
        decides=f"write down `fibres` of {listed(silent)}: {layer} needs {count}",
    )


def _type_sources() -> Iterator[Citation]:
    reaches = (row.source for row in fibre_reach().values())
    counts = (optic.source for optic in optics().values())
    yield from dict.fromkeys((*reaches, *counts, *(joint.source for joint in core_joints())))


FIBRE_TYPE_MISMATCH = Rule(
    name="fibre-type-mismatch",
    family="cabling",
    severity="fail",
    subjects=fibre_links,
    judge=_judge_type,
    what="Fibre that the modules at its ends are not made for, different fibres in one run, or too few of them.",
    why="The plugs fit and the lamp stays dark: light of one kind does not get through a fibre of another.",
    todo=f"Match the fibre to the modules along the whole run; the grade is printed on the jacket. {CARE}",
    sources=_type_sources,
)


def _judge_optics(subject: FibreLink, facts: Facts) -> Judgement:
    choice = subject.choice
    if choice is None:
        return None
    kept, wrong = choice.kept, choice.wrong
    equal = kept.phy == wrong.phy
    never = "both send alike, and neither hears the other" if equal else "such modules never link"
    return OPTICS_DIFFER.finding(
        port_place(wrong.at),
        port_place(kept.at),
        *(cable_place(cable.name) for cable in subject.cables),
        message=f"{wrong.at} has {wrong.phy} and {kept.at} has {kept.phy}: {never}",
        remedy=alike(choice),
        source=optics()[kept.phy].source,
    )


def _optics_sources() -> Iterator[Citation]:
    yield from dict.fromkeys(optic.source for optic in optics().values())


OPTICS_DIFFER = Rule(
    name="optics-differ",
    family="cabling",
    severity="fail",
    subjects=fibre_links,
    judge=_judge_optics,
    what="Modules of two kinds at the two ends of one fibre, or two equal halves of a pair that share one fibre.",
    why="Each end sends what the other cannot hear, and it looks like a broken cable.",
    todo=f"Use the same designation at both ends, or one half of each kind of a pair. {CARE}",
    sources=_optics_sources,
)
