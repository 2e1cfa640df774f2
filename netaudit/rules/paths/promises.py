"""What the rules of paths say of a link's promise: where it comes from, what it lacks, and how to widen it."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from netaudit.citation import PLAN, Citation
from netaudit.model.path import Path
from netaudit.network.links import Link, Promised
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import Missing, missing_fact, open_mesh, undecided_tree
from netaudit.rules.remedies import better_cabling
from netaudit.standards.copper import conductor_rule, copper_reach, cord_rule, most_connections, warm_rule
from netaudit.standards.fibre import core_joints, fibre_attenuation, fibre_reach, joints
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys
from netaudit.standards.twinax import twinax_reach
from netaudit.units import both_rates_text


def links_of(path: Path, facts: Facts) -> tuple[Link, ...]:
    """The links of a path, from the seat to the storage."""
    return tuple(facts.link_between[frozenset((hop.from_port, hop.to_port))] for hop in path.hops)


def most_of(promised: Promised) -> float:
    """What is never exceeded [bit/s]; infinite where nothing bounds it."""
    return inf if promised.most_bit_per_s is None else promised.most_bit_per_s


def source_of(link: Link) -> Citation:
    """What holds a link below the rate that its ports have; the plan itself where nothing published does."""
    fastest = link.fastest_bit_per_s
    if link.carrier is None or fastest is None or link.promised.most_bit_per_s == fastest:
        return PLAN
    return link.carrier.promise(fastest).source or PLAN


def lacking(link: Link, facts: Facts) -> Missing:
    """The fact for want of which it is open what a link promises a road over it."""
    mesh = open_mesh(link, facts)
    if mesh is not None and link.promised.bit_per_s is not None:
        return undecided_tree(mesh)
    return missing_fact(link, facts.plan)


def widened(link: Link, rate_bit_per_s: int, floor_bit_per_s: float, facts: Facts) -> str:
    """The step that brings a wired link to a rate [bit/s], where at least the floor [bit/s] counts as that rate."""
    fastest = link.fastest_bit_per_s
    if fastest is None or fastest >= floor_bit_per_s:
        return better_cabling(link, facts.plan)
    steps = []
    for port, rates in ((link.near, link.near_rates), (link.far, link.far_rates)):
        if rates and rates[0] < floor_bit_per_s:
            free = facts.free.like(port, (rate_bit_per_s,))
            where = f"{free}, which is free and runs" if free else "a port or a module that runs"
            steps.append(
                f"{port} runs at most {both_rates_text(rates[0])}: use {where} {both_rates_text(rate_bit_per_s)}."
            )
    return " ".join(steps) or (
        f"{link.near} and {link.far} agree on {both_rates_text(fastest)} only: "
        f"use ports that have {both_rates_text(rate_bit_per_s)} in common."
    )


def promise_sources() -> tuple[Citation, ...]:
    """Every source that the promised rate of a link may rest on, the plan itself first."""
    return tuple(dict.fromkeys((PLAN, *_cabling())))


def _cabling() -> Iterator[Citation]:
    yield from (phy.source for phy in phys().values())
    yield from (reach.source for reach in copper_reach().values())
    yield conductor_rule()
    for regime in ("iso", "tia"):
        cords = cord_rule(regime)
        for rate, budget in cords.budgets.items():
            yield from (budget.source, most_connections(rate).source)
        yield from (factor.source for factor in cords.factors.values())
        yield from (warm_rule(regime, screened).source for screened in (False, True))
    for fibre in fibre_reach().values():
        yield from (source for source in (fibre.source, fibre.loss_source) if source is not None)
    for loss in fibre_attenuation().values():
        yield from (each for each in (loss.source, loss.typical_source, loss.other_source) if each is not None)
    for joint in joints().values():
        yield from (joint.source, joint.typical_source)
    yield from (core.source for core in core_joints())
    yield from (optic.source for optic in optics().values())
    yield from (made_up.source for made_up in twinax_reach().values())
