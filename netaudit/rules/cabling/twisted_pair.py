"""Rules about cabling: is each cable good enough and short enough for the rate that its ports will run."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from netaudit.calculations.copper import (
    TOLERANCE_M,
    CopperRun,
    base_t_rates,
    enough_category,
    possible_categories,
    possible_reaches,
    reach,
)
from netaudit.citation import Citation
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import Place, cable_place, port_place
from netaudit.model.plan import COPPER_CATEGORIES
from netaudit.network.channels import Channel
from netaudit.network.links import Link
from netaudit.network.media import parts_below
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import missing_fact
from netaudit.rules.remedies import as_it_is, good_categories
from netaudit.rules.rule import Rule
from netaudit.rules.words import are, listed
from netaudit.standards.copper import CopperReach, copper_reach
from netaudit.standards.phys import base_t, phys
from netaudit.units import both_rates_text, length_text


def _copper_links(facts: Facts) -> Iterable[tuple[Link, Channel, CopperRun]]:
    """The links over twisted pair that can come up, with their channels."""
    for link in facts.topology.links:
        if link.channel is not None and link.copper is not None and link.runs:
            yield link, link.channel, link.copper


def _judge_length(subject: tuple[Link, Channel, CopperRun], facts: Facts) -> Judgement:
    link, channel, run = subject
    rates = link.rates[:1] if link.rates else link.possible_rates or base_t_rates()
    rows = possible_reaches(run, rates)
    if not rows:
        return None
    farthest = max(rows, key=lambda row: row.possible_m)
    if run.least_m > farthest.possible_m + TOLERANCE_M:
        return CHANNEL_TOO_LONG.finding(
            *_longest_first(channel),
            message=_too_long(run, channel, farthest),
            remedy=f"{_shorter_or_better(run, channel, farthest, rates)} {as_it_is(link)}",
            source=farthest.source,
            measured=Measure(run.least_m, "m"),
            limit=Measure(farthest.possible_m, "m"),
        )
    if run.length_known and run.least_m <= min(row.possible_m for row in rows) + TOLERANCE_M:
        return None
    missing = missing_fact(link, facts.plan)
    return CHANNEL_TOO_LONG.not_checked(missing.where, reason=missing.reason, decides=missing.decides)


def _longest_first(channel: Channel) -> tuple[Place, ...]:
    cables = sorted(channel.cables, key=lambda cable: -(cable.length_m or 0.0))
    return tuple(cable_place(cable.name) for cable in cables)


def _too_long(run: CopperRun, channel: Channel, row: CopperReach) -> str:
    names = " + ".join(cable.name for cable in channel.cables)
    length = length_text(run.least_m) if run.length_known else f"at least {length_text(run.least_m)}"
    screen = "screened" if run.screened else "unscreened"
    kind = f"{screen} category {run.lowest_category}" if run.category_known else "unknown category"
    rate = both_rates_text(phys()[row.phy].rate_bit_per_s)
    return f"{names}: {length} of {kind}, over which {rate} reaches {length_text(row.possible_m)} at the most"


def _shorter_or_better(run: CopperRun, channel: Channel, row: CopperReach, rates: Sequence[int]) -> str:
    """What is promised counts, not what may just work."""
    assured = f"Shorten it to {length_text(row.assured_m)}" if row.assured_m is not None else "Shorten it"
    if enough_category(run, rates[0]) is None or run.lowest_category is None:
        return f"{assured}, put a switch on the way, or lay fibre or another medium made for the distance."
    old = [cable for cable in channel.cables if cable.category == run.lowest_category] or list(channel.cables)
    return f"{assured}, or replace {listed(old)} by {good_categories(run, rates[0])}."


CHANNEL_TOO_LONG = Rule(
    name="channel-too-long",
    family="cabling",
    severity="fail",
    subjects=_copper_links,
    judge=_judge_length,
    what="A run of twisted pair, cords included, that is longer than its category carries the rate of its ports.",
    why="Past the limit the ports drop to a lower rate or lose frames, often only when the room is warm or busy.",
    todo="Shorten the run, replace the lowest category in it, or use fibre.",
)


def _judge_category(subject: tuple[Link, Channel, CopperRun], facts: Facts) -> Judgement:
    link, channel, run = subject
    rates = link.rates[:1] if link.rates else link.possible_rates or base_t_rates()
    carried = {
        (rate, category): reach(rate, category, screened=run.screened) is not None
        for rate in rates
        for category in possible_categories(run)
    }
    if all(carried.values()):
        return None
    if any(carried.values()) or not link.rates or run.lowest_category is None:
        missing = missing_fact(link, facts.plan)
        return CATEGORY_TOO_LOW.not_checked(missing.where, reason=missing.reason, decides=missing.decides)
    rate = rates[0]
    lowest = _lowest_category_for(rate)
    if lowest is None:
        return CATEGORY_TOO_LOW.finding(
            *_longest_first(channel),
            message=f"{listed(channel.cables)}: no category of twisted pair is specified for {both_rates_text(rate)}",
            remedy=f"Use fibre or a made-up cable, or ports that run {both_rates_text(base_t_rates()[0])} or less.",
            source=next(iter(copper_reach().values())).source,
        )
    floor, source = lowest
    cables, joints = parts_below(facts.plan, channel, floor)
    parts = [*(cable.name for cable in cables), *map(str, joints)]
    places = (*(cable_place(cable.name) for cable in cables), *map(port_place, joints))
    return CATEGORY_TOO_LOW.finding(
        *places,
        message=f"{listed(parts)} {are(parts)} category {run.lowest_category}; "
        f"{both_rates_text(rate)} is specified from category {floor} up",
        remedy=f"{_better_category(run, rate, parts)} {as_it_is(link)}",
        source=source,
    )


def _lowest_category_for(rate_bit_per_s: int) -> tuple[str, Citation] | None:
    """The first category that is specified for a rate [bit/s], with the source of its reach; None if there is none."""
    phy = base_t(rate_bit_per_s)
    for category in COPPER_CATEGORIES:
        row = copper_reach().get((phy or "", category, False))
        if row is not None:
            return category, row.source
    return None


def _better_category(run: CopperRun, rate_bit_per_s: int, parts: Sequence[str]) -> str:
    if enough_category(run, rate_bit_per_s) is None:
        return f"No category carries {both_rates_text(rate_bit_per_s)} that far: use fibre, or put a switch on the way."
    return f"Replace {listed(parts)} by {good_categories(run, rate_bit_per_s)}."


CATEGORY_TOO_LOW = Rule(
    name="category-too-low",
    family="cabling",
    severity="fail",
    subjects=_copper_links,
    judge=_judge_category,
    what="Twisted pair, an outlet or a panel of a category that is not specified for the rate of the ports.",
    why="The ports may come up at that rate and hold it for a while: nothing promises that they go on doing so.",
    todo="Replace the part that is named; one part of a low category makes the whole channel low.",
)
