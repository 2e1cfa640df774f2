"""Rules about loss over twisted pair: cords lose more than solid cable, and everything loses more in warm air."""

from __future__ import annotations

from netaudit.calculations.copper_run import LossBudget, WarmLimit, loss_budget, warm_limit
from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.plan import Cable, Plan
from netaudit.rules.cabling.channels import in_a_row, known_length, led_by
from netaudit.rules.cabling.copper_links import CopperLink, State, beyond, copper_links, lacks, together
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import uncharted_air, unknown_gauge
from netaudit.rules.remedies import as_it_is, rounded_down, shorter_cords
from netaudit.rules.rule import Rule
from netaudit.rules.words import are
from netaudit.standards.copper import CopperReach, cord_rule, warm_rule
from netaudit.standards.phys import phys
from netaudit.units import both_rates_text, length_text, number_text, temperature_text


def _loss(copper: CopperLink, row: CopperReach, plan: Plan) -> LossBudget:
    return loss_budget(copper.run, phys()[row.phy].rate_bit_per_s, plan.regime)


def _judge_cords(copper: CopperLink, facts: Facts) -> Judgement:
    states = [_cord_state(copper, row, facts.plan) for row in copper.rows]
    state = together(states)
    if state == "kept":
        return None
    if state == "open":
        if copper.run.length_known and set(states) == {"open"}:
            missing = unknown_gauge(copper.channel)
            return CORDS_TOO_LONG.not_checked(missing.where, reason=missing.reason, decides=missing.decides)
        return lacks(CORDS_TOO_LONG, copper, facts)
    loss = _loss(copper, copper.rows[0], facts.plan)
    rate = phys()[copper.rows[0].phy].rate_bit_per_s
    measured, limit, message = _too_much_cord(copper, loss, rate, facts.plan)
    return CORDS_TOO_LONG.finding(
        *led_by(copper.cords, copper.channel),
        message=message,
        remedy=f"{shorter_cords(copper.channel, copper.run, rate, facts.plan)} {as_it_is(copper.link)}",
        source=loss.source,
        measured=Measure(measured, "m"),
        limit=Measure(limit, "m"),
    )


def _cord_state(copper: CopperLink, row: CopperReach, plan: Plan) -> State:
    loss = _loss(copper, row, plan)
    if beyond(copper.run, row.possible_m):
        return "kept"
    if loss.broken:
        return "broken"
    return "open" if loss.doubtful or not copper.run.length_known else "kept"


def _too_much_cord(copper: CopperLink, loss: LossBudget, rate_bit_per_s: int, plan: Plan) -> tuple[float, float, str]:
    """What is too much against what may be [m], and the sentence: in cord where each metre of it loses alike."""
    run, cords, rate = copper.run, copper.cords, both_rates_text(rate_bit_per_s)
    factors = {cord_rule(plan.regime).least_factor(cord.gauge_awg) for cord in run.cords}
    if len(factors) > 1:
        worth = f"{known_length(run)} with {listed(cords)} as cords lose as much as {length_text(loss.least_m)} solid"
        message = f"{in_a_row(copper.channel)}: {worth}, where {rate} bears {length_text(loss.allowed_m)}"
        return loss.least_m, loss.allowed_m, message
    (factor,) = factors
    cords_m = sum(cord.length_m for cord in run.cords)
    allowed_m = (loss.allowed_m - run.fixed_m) / factor
    beside = f"beside {length_text(run.fixed_m)} of solid cable" if run.fixed_m else "and nothing else"
    most = (
        f"{length_text(allowed_m)} at the most, since each metre of cord loses as much as {number_text(factor)} m solid"
    )
    message = f"{listed(cords)} {are(cords)} {length_text(cords_m)} of cord {beside}, where {rate} bears {most}"
    return cords_m, allowed_m, message


def _cord_sources() -> tuple[Citation, ...]:
    rules = (cord_rule("iso"), cord_rule("tia"))
    figures = [figure for rule in rules for figure in (*rule.budgets.values(), *rule.factors.values())]
    return tuple(dict.fromkeys(figure.source for figure in figures))


CORDS_TOO_LONG = Rule(
    name="cords-too-long",
    family="cabling",
    severity="fail",
    subjects=copper_links,
    judge=_judge_cords,
    what="A run of twisted pair that is not too long, but whose stranded cords use up the loss that it may have.",
    why="Stranded cords bend well, and lose from a fifth more to almost twice as much as solid cable of their length.",
    todo="Shorten the cords, use thicker ones, or lay solid cable for most of the way.",
    sources=_cord_sources,
)


def _judge_warmth(copper: CopperLink, facts: Facts) -> Judgement:
    plan = facts.plan
    limits = [warm_limit(copper.run, row, plan.regime) for row in copper.rows]
    state = together(_warm_state(copper, row, limit, plan) for row, limit in zip(copper.rows, limits, strict=True))
    if state == "kept":
        return None
    limit, allowed_m = limits[0], limits[0].allowed_m
    if allowed_m is None:
        missing = uncharted_air(copper.channel)
        return TOO_WARM_FOR_LENGTH.not_checked(missing.where, reason=missing.reason, decides=missing.decides)
    if state == "open":
        return lacks(TOO_WARM_FOR_LENGTH, copper, facts)
    solids = sorted(copper.solids, key=lambda cable: -_air_c(cable, plan))
    return TOO_WARM_FOR_LENGTH.finding(
        *led_by(solids, copper.channel),
        message=f"{listed(solids)} {are(solids)} {length_text(limit.fixed_m)} of solid cable in air of "
        f"{temperature_text(limit.air_c)}, where {length_text(allowed_m)} is the most",
        remedy=f"Keep the air along {listed(solids)} at {temperature_text(rounded_down(limit.warmest_c))} or cooler, "
        f"where that length is good, or shorten the solid cable to {length_text(rounded_down(allowed_m))}.",
        source=limit.rule.source,
        measured=Measure(limit.fixed_m, "m"),
        limit=Measure(allowed_m, "m"),
    )


def _warm_state(copper: CopperLink, row: CopperReach, limit: WarmLimit, plan: Plan) -> State:
    """Only what warmth alone breaks is told here."""
    if beyond(copper.run, row.possible_m) or _loss(copper, row, plan).broken:
        return "kept"
    if limit.broken:
        return "broken"
    known = limit.allowed_m is not None and (copper.run.length_known or not limit.warm)
    return "kept" if known else "open"


def _air_c(cable: Cable, plan: Plan) -> float:
    return plan.ambient_c if cable.ambient_c is None else cable.ambient_c


def _warm_sources() -> tuple[Citation, ...]:
    rules = [warm_rule(regime, screened) for regime in ("iso", "tia") for screened in (False, True)]
    return tuple(dict.fromkeys(rule.source for rule in rules))


TOO_WARM_FOR_LENGTH = Rule(
    name="too-warm-for-length",
    family="cabling",
    severity="fail",
    subjects=copper_links,
    judge=_judge_warmth,
    what="A run of twisted pair that is short enough in cool air, but not in the air along its solid cable.",
    why="Copper loses more the warmer it is, so that a run under a hot roof gives up on a summer afternoon.",
    todo="Lead the cable through cooler air, shorten it, or use fibre, which does not mind.",
    sources=_warm_sources,
)
