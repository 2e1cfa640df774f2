"""The rule about what cables are made of: twisted pair has conductors of copper all through."""

from __future__ import annotations

from collections.abc import Iterable

from netaudit.citation import Citation
from netaudit.model.finding import Judgement
from netaudit.model.place import cable_place
from netaudit.model.plan import COPPER_CATEGORIES, Cable
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.standards.copper import conductor_rule


def _twisted_pairs(facts: Facts) -> Iterable[Cable]:
    """Every cable of a category of twisted pair, and those of unknown category that may be of one."""
    other = {
        name
        for link in facts.topology.links
        if link.carrier is not None and link.carrier.medium in ("fibre", "twinax", "host")
        for name in link.cables
    }
    for cable in facts.plan.cables.values():
        if cable.category in COPPER_CATEGORIES or (cable.category == "unknown" and cable.name not in other):
            yield cable


def _judge(cable: Cable, facts: Facts) -> Judgement:
    if cable.material == "copper":
        return None
    category = "the category of the rest of the run" if cable.category == "unknown" else f"category {cable.category}"
    return CABLE_NOT_STANDARD.finding(
        cable_place(cable.name),
        message=f"{cable.name} has conductors of copper-clad aluminium, which no category of twisted pair allows",
        remedy=f"Replace {cable.name} by cable of {category} whose conductors are copper all through; until then "
        "send no power over it, since such conductors heat up more.",
        source=conductor_rule(),
    )


def _sources() -> tuple[Citation, ...]:
    return (conductor_rule(),)


CABLE_NOT_STANDARD = Rule(
    name="cable-not-standard",
    family="cabling",
    severity="fail",
    subjects=_twisted_pairs,
    judge=_judge,
    what="Twisted pair whose conductors are aluminium with a skin of copper, whatever category is printed on it.",
    why="It loses more signal, breaks sooner, and heats up where it also carries power to a device.",
    todo="Replace it by cable whose conductors are copper all through.",
    sources=_sources,
)
