"""The rule of fibre on length: does the light arrive in shape."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.calculations.fibre import TOLERANCE
from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.network.media import Carrier
from netaudit.rules.cabling.channels import in_a_row, known_length, led_by
from netaudit.rules.cabling.fibre_links import CARE, FibreLink, beyond_it, rows_of, running_fibre_links
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import missing_fact
from netaudit.rules.remedies import as_it_is
from netaudit.rules.rule import Rule
from netaudit.standards.fibre import FibreReach, fibre_reach
from netaudit.units import length_text


def _bounds(layer: str, carrier: Carrier) -> tuple[FibreReach, FibreReach] | None:
    """The least and the most that a physical layer may reach over what is known of the grades; None if over none."""
    rows = rows_of(layer)
    known = [row for row in rows if row.grade in carrier.kinds]
    if not rows or len(known) < len(carrier.kinds):
        return None
    most = min(known, key=lambda row: row.possible_m) if known else max(rows, key=lambda row: row.possible_m)
    return min(known if carrier.kinds_known else rows, key=lambda row: row.reach_m), most


def _judge(subject: FibreLink, facts: Facts) -> Judgement:
    carrier = subject.carrier
    bounds = [found for layer in subject.layers if (found := _bounds(layer, carrier))]
    if not bounds and carrier.lanes == 1:
        return None
    if bounds:
        most = max((most for _, most in bounds), key=lambda row: row.possible_m)
        if carrier.least_m > most.possible_m + TOLERANCE:
            return FIBRE_TOO_LONG.finding(
                *led_by((), subject.channel),
                message=_too_long(subject, most),
                remedy=_shorter(subject, most),
                source=most.source,
                measured=Measure(carrier.least_m, "m"),
                limit=Measure(most.possible_m, "m"),
            )
        least_m = min(least.reach_m for least, _ in bounds)
        if carrier.length_m is not None and carrier.length_m <= least_m + TOLERANCE:
            return None
    missing = missing_fact(subject.link, facts.plan)
    return FIBRE_TOO_LONG.not_checked(missing.where, reason=missing.reason, decides=missing.decides)


def _too_long(subject: FibreLink, row: FibreReach) -> str:
    carrier = subject.carrier
    kind = row.grade if carrier.kinds_known else "fibre of unknown grade"
    run = f"{in_a_row(subject.channel)}: {known_length(carrier)} of {kind}"
    return f"{run}, over which {row.phy} reaches {length_text(row.possible_m)} at the most"


def _shorter(subject: FibreLink, row: FibreReach) -> str:
    cables = listed(subject.cables)
    kept = as_it_is(subject.link)
    return f"Shorten {cables} to {length_text(row.reach_m)}, or {beyond_it(subject, row.phy)}. {kept}"


def _sources() -> Iterator[Citation]:
    yield from dict.fromkeys(row.source for row in fibre_reach().values())


FIBRE_TOO_LONG = Rule(
    name="fibre-too-long",
    family="cabling",
    severity="fail",
    subjects=running_fibre_links,
    judge=_judge,
    what="A run of fibre that is longer than its grade carries the light of the modules at its ends.",
    why="Past the limit the pulses run into one another: frames are lost, however clean the plugs are.",
    todo=f"Shorten the run, or change the grade or the modules. {CARE}",
    sources=_sources,
)
