"""The rules of fibre on loss: does enough light arrive."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from netaudit.calculations.fibre import TOLERANCE, loss_source, worst_loss_db
from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure, NotChecked
from netaudit.rules.cabling.channels import led_by
from netaudit.rules.cabling.fibre_budgets import Budget, budgets_of
from netaudit.rules.cabling.fibre_links import CARE, FibreLink, running_fibre_links
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import missing_fact
from netaudit.rules.remedies import as_it_is
from netaudit.rules.rule import Rule
from netaudit.standards.fibre import fibre_attenuation, fibre_reach, joints
from netaudit.units import measure_text


def _judge_too_high(subject: FibreLink, facts: Facts) -> Judgement:
    budgets = budgets_of(subject)
    broken = False if budgets is None else budgets.all_broken([budget.too_high for budget in budgets.known])
    if budgets is None or broken is False:
        return None
    if broken is None:
        return _open(FIBRE_LOSS_TOO_HIGH, subject, facts)
    budget = max(budgets.known, key=lambda one: one.possible_db - one.typical_db)
    lose = "were measured to lose" if budget.run.measured_db is not None else "lose, even with decent joints,"
    return FIBRE_LOSS_TOO_HIGH.finding(
        *led_by((), subject.channel),
        message=f"{_together(subject)} {lose} {measure_text(budget.typical_db, 'dB')}; "
        f"{budget.row.phy} bridges {measure_text(budget.possible_db, 'dB')} at the most",
        remedy=f"{_less(subject, budget)} {as_it_is(subject.link)}",
        source=loss_source(budget.run, budget.row) or budget.row.source,
        measured=Measure(budget.typical_db, "dB"),
        limit=Measure(budget.possible_db, "dB"),
    )


def _judge_doubtful(subject: FibreLink, facts: Facts) -> Judgement:
    budgets = budgets_of(subject)
    if budgets is None or budgets.all_broken([budget.too_high for budget in budgets.known]):
        return None
    broken = budgets.all_broken([budget.doubtful for budget in budgets.known])
    if broken is None:
        return _open(FIBRE_LOSS_DOUBTFUL, subject, facts)
    if broken is False:
        return None
    budget = max(budgets.known, key=lambda one: one.promised_db - one.worst_db)
    lose = "were measured to lose" if budget.run.measured_db is not None else "may lose, with joints as bad as allowed,"
    return FIBRE_LOSS_DOUBTFUL.finding(
        *led_by((), subject.channel),
        message=f"{_together(subject)} {lose} {measure_text(budget.worst_db, 'dB')}; "
        f"{budget.row.phy} is promised up to {measure_text(budget.promised_db, 'dB')}",
        remedy=_less(subject, budget),
        source=budget.row.loss_source or budget.row.source,
        measured=Measure(budget.worst_db, "dB"),
        limit=Measure(budget.promised_db, "dB"),
    )


def _open(rule: Rule[FibreLink, Facts], subject: FibreLink, facts: Facts) -> NotChecked:
    missing = missing_fact(subject.link, facts.plan)
    return rule.not_checked(missing.where, reason=missing.reason, decides=missing.decides)


def _together(subject: FibreLink) -> str:
    """The cables with their joints, as the subject of a sentence in the plural."""
    joined = len(subject.channel.joints)
    pairs = f" with {joined} {'joint' if joined == 1 else 'joints'}" if joined else ""
    return f"The fibres of {listed(subject.cables)}{pairs}"


def _less(subject: FibreLink, budget: Budget) -> str:
    """The step that brings the loss within what is promised."""
    cables, run = listed(subject.cables), budget.run
    limit = measure_text(budget.promised_db, "dB")
    if run.measured_db is not None:
        return f"Clean every plug of {cables} and measure again: up to {limit} is good. Renew the joint that stays bad."
    pair_db = joints()["pair"].worst_db
    left_db = budget.promised_db - worst_loss_db(replace(run, pairs=0), budget.row.window_nm)
    most_pairs = math.floor((left_db + TOLERANCE) / pair_db)
    measure = f"measure the loss and write it down as `loss`: up to {limit} is good"
    if most_pairs < 0:
        return f"Shorten {cables}, or {measure}."
    if most_pairs == 0:
        return f"Lay {cables} as one piece, or {measure}."
    return f"Run {cables} through {most_pairs} instead of {run.pairs} panels and outlets, or {measure}."


def _sources() -> Iterator[Citation]:
    budgets = [row.loss_source for row in fibre_reach().values()]
    fibres = [source for row in fibre_attenuation().values() for source in (row.source, row.typical_source)]
    pairs = [source for row in joints().values() for source in (row.source, row.typical_source)]
    yield from dict.fromkeys(source for source in (*budgets, *fibres, *pairs) if source is not None)


FIBRE_LOSS_TOO_HIGH = Rule(
    name="fibre-loss-too-high",
    family="cabling",
    severity="fail",
    subjects=running_fibre_links,
    judge=_judge_too_high,
    what="A run of fibre that takes more light than the modules can bridge, even if every joint in it is a decent one.",
    why="Short runs fail by their joints, not by their length: four panels on the way can take more light than 100 m.",
    todo=f"Take joints out of the run, or shorten it; measure the loss where it is close. {CARE}",
    sources=_sources,
)

FIBRE_LOSS_DOUBTFUL = Rule(
    name="fibre-loss-doubtful",
    family="cabling",
    severity="warn",
    subjects=running_fibre_links,
    judge=_judge_doubtful,
    what="A run of fibre that keeps within its loss only if its joints are better than the standards ask.",
    why="It may work on the day and drop out when a plug gets dusty.",
    todo=f"Have the loss measured and write it into the plan as `loss`. {CARE}",
    sources=_sources,
)
