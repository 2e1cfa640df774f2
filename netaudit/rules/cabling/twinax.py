"""The rule of made-up cables: is each short enough for the rate of its ports."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.calculations.twinax import TOLERANCE_M, twinax_limit
from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.network.channels import Channel
from netaudit.network.links import Link
from netaudit.network.media import Carrier
from netaudit.rules.cabling.channels import in_a_row, known_length, led_by
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import missing_fact
from netaudit.rules.remedies import as_it_is
from netaudit.rules.rule import Rule
from netaudit.standards.twinax import TwinaxReach, twinax_reach, twinax_reach_of
from netaudit.units import both_rates_text, length_text


class _TwinaxLink(NamedTuple):
    """A link over a made-up cable with what carries it."""

    link: Link
    channel: Channel
    carrier: Carrier

    @property
    def rates(self) -> tuple[int, ...]:
        """The rate that its ends agree on, or else all that they may [bit/s]."""
        if self.link.rates:
            return self.link.rates[:1]
        return self.link.possible_rates or tuple(dict.fromkeys(rate for rate, _ in twinax_reach()))


def _twinax_links(facts: Facts) -> Iterable[_TwinaxLink]:
    """The links over made-up cables that can come up."""
    for link in facts.topology.links:
        carrier = link.carrier
        if link.channel is not None and carrier is not None and carrier.medium == "twinax" and link.runs:
            yield _TwinaxLink(link, link.channel, carrier)


def _strictest(subject: _TwinaxLink) -> list[TwinaxReach] | None:
    """The shortest limit of the kinds of a link at each rate that it may run; None while one of them is in no table."""
    rows = []
    for rate in subject.rates:
        limits = [twinax_limit(rate, kind, subject.carrier.modules) for kind in subject.carrier.kinds]
        known = [row for row in limits if row is not None]
        if not known or len(known) < len(limits):
            return None
        rows.append(min(known, key=_reach_m))
    return rows or None


def _reach_m(row: TwinaxReach) -> float:
    return math.inf if row.reach_m is None else row.reach_m


def _judge(subject: _TwinaxLink, facts: Facts) -> Judgement:
    carrier, rows = subject.carrier, _strictest(subject)
    if rows is not None:
        farthest = max(rows, key=_reach_m)
        if carrier.least_m > _reach_m(farthest) + TOLERANCE_M:
            return TWINAX_TOO_LONG.finding(
                *led_by((), subject.channel),
                message=_too_long(subject, farthest),
                remedy=f"{_shorter(subject, farthest)} {as_it_is(subject.link)}",
                source=farthest.source,
                measured=Measure(carrier.least_m, "m"),
                limit=Measure(_reach_m(farthest), "m"),
            )
        longest_m = math.inf if carrier.length_m is None else carrier.length_m
        if carrier.kinds_known and longest_m <= min(map(_reach_m, rows)) + TOLERANCE_M:
            return None
    missing = missing_fact(subject.link, facts.plan)
    return TWINAX_TOO_LONG.not_checked(missing.where, reason=missing.reason, decides=missing.decides)


def _too_long(subject: _TwinaxLink, row: TwinaxReach) -> str:
    carrier = subject.carrier
    layer = f" as {row.phy}" if row.phy in carrier.modules else ""
    rate = f"{both_rates_text(row.rate_bit_per_s)}{layer}"
    run = f"{in_a_row(subject.channel)}: {known_length(carrier)} of {row.kind}"
    return f"{run}, over which {rate} reaches {length_text(_reach_m(row))} at the most"


def _shorter(subject: _TwinaxLink, row: TwinaxReach) -> str:
    """The ways to the rate: a shorter cable, another of the kinds that reach so far, or fibre."""
    cables, length_m = listed(subject.channel.cables), subject.carrier.least_m
    rows = [one for one in twinax_reach().values() if one.rate_bit_per_s == row.rate_bit_per_s]
    longer = [one for one in rows if one.reach_m is not None and one.reach_m >= length_m]
    steps = [f"Use {length_text(_reach_m(row))} or less instead of {cables}"]
    if longer and longer[0].kind == row.kind:
        steps.append(f"ends that run {longer[0].phy}, good to {length_text(_reach_m(longer[0]))}")
    elif longer:
        steps.append(f"{longer[0].kind}, good to {length_text(_reach_m(longer[0]))}")
    return f"{', or '.join([*steps, 'active-optical, whose maker answers for its length'])}."


def _sources() -> Iterator[Citation]:
    yield from dict.fromkeys(row.source for row in (*twinax_reach().values(), *twinax_reach_of().values()))


TWINAX_TOO_LONG = Rule(
    name="twinax-too-long",
    family="cabling",
    severity="fail",
    subjects=_twinax_links,
    judge=_judge,
    what="A direct attach cable that is longer than its kind carries the rate of the ports.",
    why="The faster the rate, the shorter the copper: a cable that ran 10 Gb/s may be too long for 25 Gb/s.",
    todo="Use a shorter cable, one with electronics or fibre inside, or modules and fibre. "
    "Between two buildings copper joins their earths: use fibre there.",
    sources=_sources,
)
