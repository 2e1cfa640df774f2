"""The rule about reach that nothing promises: lengths that may work, and may not."""

from __future__ import annotations

from netaudit.calculations.copper import possible_categories, reach
from netaudit.calculations.copper_run import CopperRun
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import PortRef
from netaudit.model.plan import Cable
from netaudit.rules.cabling.channels import in_a_row, known_length, led_by
from netaudit.rules.cabling.copper_links import (
    CopperLink,
    State,
    beyond,
    copper_links,
    kind_of,
    lacks,
    reach_sources,
    shorter_or_better,
    together,
)
from netaudit.rules.facts import Facts
from netaudit.rules.remedies import as_it_is
from netaudit.rules.rule import Rule
from netaudit.rules.words import are
from netaudit.standards.copper import CopperReach
from netaudit.standards.phys import phys
from netaudit.units import both_rates_text, length_text


def _judge(copper: CopperLink, facts: Facts) -> Judgement:
    run = copper.run
    reaches = [
        reach(rate, category, screened=run.screened) for rate in copper.rates for category in possible_categories(run)
    ]
    state = together(_state(run, row) for row in reaches)
    if state == "kept":
        return None
    if state == "open":
        return lacks(REACH_NOT_ASSURED, copper, facts)
    row = next(row for row in reaches if row is not None)
    bare = _unscreened(copper, facts)
    return REACH_NOT_ASSURED.finding(
        *led_by((), copper.channel),
        message=_message(copper, row, bare),
        remedy=" ".join(
            [*_screen_all(copper, row, bare), shorter_or_better(copper, row, facts), as_it_is(copper.link)]
        ),
        source=row.source,
        measured=Measure(run.least_m, "m"),
        limit=None if row.assured_m is None else Measure(row.assured_m, "m"),
    )


def _state(run: CopperRun, row: CopperReach | None) -> State:
    """Beyond what is possible, and where there is no reach at all, another rule speaks.

    Where all that is possible is assured as well, no length breaks it.
    """
    if row is None or beyond(run, row.possible_m):
        return "kept"
    if row.assured_m is None or beyond(run, row.assured_m):
        return "broken"
    return "kept" if run.length_known or row.assured_m == row.possible_m else "open"


def _unscreened(copper: CopperLink, facts: Facts) -> tuple[Cable | PortRef, ...]:
    """The parts without a screen, where others have one."""
    cables = [cable for cable in copper.channel.cables if not cable.screened]
    if len(cables) == len(copper.channel.cables):
        return ()
    devices = facts.plan.devices
    joints = [joint for joint in copper.channel.joints if devices[joint.device].ports[joint.port].screened is False]
    return (*cables, *joints)


def _message(copper: CopperLink, row: CopperReach, bare: tuple[Cable | PortRef, ...]) -> str:
    run = copper.run
    rate = both_rates_text(phys()[row.phy].rate_bit_per_s)
    why = f" (counted as unscreened, since {listed(bare)} {are(bare)})" if bare else ""
    lead = f"{in_a_row(copper.channel)}: {known_length(run)} of {kind_of(run)}{why}"
    if row.assured_m is None:
        return f"{lead}, over which nothing promises {rate}, though it may run to {length_text(row.possible_m)}"
    return (
        f"{lead}, over which {rate} is promised to {length_text(row.assured_m)} "
        f"and only may run to {length_text(row.possible_m)}"
    )


def _screen_all(copper: CopperLink, row: CopperReach, bare: tuple[Cable | PortRef, ...]) -> list[str]:
    """The cheapest step where a screen all through is enough."""
    screened = reach(phys()[row.phy].rate_bit_per_s, row.category, screened=True)
    if not bare or screened is None or screened.assured_m is None or beyond(copper.run, screened.assured_m):
        return []
    promised = length_text(screened.assured_m)
    return [f"Replace {listed(bare)} by screened parts: screened all through, it is promised to {promised}."]


REACH_NOT_ASSURED = Rule(
    name="reach-not-assured",
    family="cabling",
    severity="warn",
    subjects=copper_links,
    judge=_judge,
    what="A run of twisted pair over which the rate of its ports may work, but which is longer than anything promises.",
    why="Such a run lives on luck with its neighbours in the bundle: it may hold for months "
    "and drop frames on the day that more of them are busy.",
    todo="Have it measured for crosstalk from its neighbours, shorten it, or replace the lowest category in it.",
    sources=reach_sources,
)
