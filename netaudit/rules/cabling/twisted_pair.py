"""Rules about cabling: is each cable good enough and short enough for the rate that its ports will run."""

from __future__ import annotations

from collections.abc import Sequence

from netaudit.calculations.copper import (
    base_t_rates,
    enough_category,
    possible_categories,
    reach,
)
from netaudit.calculations.copper_run import CopperRun
from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import PortRef, cable_place, port_place
from netaudit.model.plan import COPPER_CATEGORIES, Cable
from netaudit.network.media import parts_below
from netaudit.rules.cabling.channels import in_a_row, known_length, led_by, longest_first
from netaudit.rules.cabling.copper_links import (
    CopperLink,
    beyond,
    copper_links,
    kind_of,
    lacks,
    reach_sources,
    shorter_or_better,
)
from netaudit.rules.facts import Facts
from netaudit.rules.remedies import as_it_is, beyond_twisted_pair, good_categories
from netaudit.rules.rule import Rule
from netaudit.rules.words import are
from netaudit.standards.copper import CopperReach, copper_reach
from netaudit.standards.phys import base_t, phys
from netaudit.units import both_rates_text, length_text


def _judge_length(copper: CopperLink, facts: Facts) -> Judgement:
    run, rows = copper.run, copper.rows
    if not rows:
        return None
    farthest = max(rows, key=lambda row: row.possible_m)
    if beyond(run, farthest.possible_m):
        return CHANNEL_TOO_LONG.finding(
            *led_by((), copper.channel),
            message=_too_long(copper, farthest),
            remedy=f"{shorter_or_better(copper, farthest, facts)} {as_it_is(copper.link)}",
            source=farthest.source,
            measured=Measure(run.least_m, "m"),
            limit=Measure(farthest.possible_m, "m"),
        )
    if run.length_known and not beyond(run, min(row.possible_m for row in rows)):
        return None
    return lacks(CHANNEL_TOO_LONG, copper, facts)


def _too_long(copper: CopperLink, row: CopperReach) -> str:
    rate = both_rates_text(phys()[row.phy].rate_bit_per_s)
    run = f"{known_length(copper.run)} of {kind_of(copper.run)}"
    return f"{in_a_row(copper.channel)}: {run}, over which {rate} reaches {length_text(row.possible_m)} at the most"


CHANNEL_TOO_LONG = Rule(
    name="channel-too-long",
    family="cabling",
    severity="fail",
    subjects=copper_links,
    judge=_judge_length,
    what="A run of twisted pair, cords included, that is longer than its category carries the rate of its ports.",
    why="Past the limit the ports drop to a lower rate or lose frames, often only when the room is warm or busy.",
    todo="Shorten the run, replace the lowest category in it, or use fibre.",
    sources=reach_sources,
)


def _judge_category(copper: CopperLink, facts: Facts) -> Judgement:
    link, channel, run = copper
    rates = copper.rates
    carried = {
        (rate, category): reach(rate, category, screened=run.screened) is not None
        for rate in rates
        for category in possible_categories(run)
    }
    if all(carried.values()):
        return None
    if any(carried.values()) or not link.rates or run.lowest_category is None:
        return lacks(CATEGORY_TOO_LOW, copper, facts)
    rate = rates[0]
    lowest = _lowest_category_for(rate)
    if lowest is None:
        return CATEGORY_TOO_LOW.finding(
            *led_by((), channel),
            message=f"{listed(channel.cables)}: no category of twisted pair is specified for {both_rates_text(rate)}",
            remedy=beyond_twisted_pair(rate),
            source=_fastest_source(),
        )
    floor, source = lowest
    cables, joints = parts_below(facts.plan, channel, floor)
    cables = tuple(sorted(longest_first(cables), key=lambda cable: COPPER_CATEGORIES.index(cable.category)))
    parts = [*(cable.name for cable in cables), *map(str, joints)]
    deciding = [*(cable_place(cable.name) for cable in cables), *map(port_place, joints)]
    return CATEGORY_TOO_LOW.finding(
        *dict.fromkeys([*deciding, *led_by((), channel)]),
        message=f"{_with_categories(cables, joints, facts)}; "
        f"{both_rates_text(rate)} is specified from category {floor} up",
        remedy=f"{_better_category(run, rate, parts)} {as_it_is(link)}",
        source=source,
    )


def _with_categories(cables: Sequence[Cable], joints: Sequence[PortRef], facts: Facts) -> str:
    """Parts with the category of each: W04 and plate/1 are category 5e, C02 is category 6."""
    parts_of: dict[str | None, list[str]] = {}
    for cable in cables:
        parts_of.setdefault(cable.category, []).append(cable.name)
    for joint in joints:
        parts_of.setdefault(facts.port(joint).category, []).append(str(joint))
    return ", ".join(f"{listed(parts)} {are(parts)} category {category}" for category, parts in parts_of.items())


def _lowest_category_for(rate_bit_per_s: int) -> tuple[str, Citation] | None:
    """The first category that is specified for a rate [bit/s], with the source of its reach; None if there is none."""
    phy = base_t(rate_bit_per_s)
    for category in COPPER_CATEGORIES:
        row = copper_reach().get((phy or "", category, False))
        if row is not None:
            return category, row.source
    return None


def _fastest_source() -> Citation:
    """What specifies the highest rate over twisted pair, which is as far as any category goes."""
    fastest = base_t(base_t_rates()[0])
    return next(row.source for row in copper_reach().values() if row.phy == fastest)


def _better_category(run: CopperRun, rate_bit_per_s: int, parts: Sequence[str]) -> str:
    if enough_category(run, rate_bit_per_s) is None:
        return f"No category carries {both_rates_text(rate_bit_per_s)} that far: use fibre, or put a switch on the way."
    return f"Replace {listed(parts)} by {good_categories(run, rate_bit_per_s)}."


CATEGORY_TOO_LOW = Rule(
    name="category-too-low",
    family="cabling",
    severity="fail",
    subjects=copper_links,
    judge=_judge_category,
    what="Twisted pair, an outlet or a panel of a category that is not specified for the rate of the ports.",
    why="The ports may come up at that rate and hold it for a while: nothing promises that they go on doing so.",
    todo="Replace the part that is named; one part of a low category makes the whole channel low.",
    sources=reach_sources,
)
