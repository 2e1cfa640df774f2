"""Links over twisted pair: the subject of the rules about copper, and what these rules say alike."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Literal, NamedTuple

from netaudit.calculations.copper import base_t_rates, enough_category, possible_reaches
from netaudit.calculations.copper_run import TOLERANCE_M, CopperRun
from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import NotChecked
from netaudit.model.place import PortRef
from netaudit.model.plan import Cable
from netaudit.network.channels import Channel
from netaudit.network.links import Link
from netaudit.network.media import is_cord, parts_below
from netaudit.rules.cabling.channels import longest_first
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import missing_fact
from netaudit.rules.remedies import good_categories
from netaudit.rules.rule import Rule
from netaudit.standards.copper import CopperReach, copper_reach
from netaudit.units import length_text

State = Literal["kept", "broken", "open"]
"""How a limit stands for one rate and category that may be meant: kept, or for another rule to tell · broken,
whatever is unknown · open."""


class CopperLink(NamedTuple):
    """A link over twisted pair that can come up."""

    link: Link
    channel: Channel
    run: CopperRun

    @property
    def rates(self) -> tuple[int, ...]:
        """The rate that its ports agree on, or all that they may agree on [bit/s]."""
        return self.link.rates[:1] if self.link.rates else self.link.possible_rates or base_t_rates()

    @property
    def rows(self) -> tuple[CopperReach, ...]:
        """The published reach of each of them over each category that it may have."""
        return possible_reaches(self.run, self.rates)

    @property
    def cords(self) -> tuple[Cable, ...]:
        """Its stranded cords, the longest first."""
        joints = frozenset(self.channel.joints)
        return tuple(cable for cable in longest_first(self.channel.cables) if is_cord(cable, joints))

    @property
    def solids(self) -> tuple[Cable, ...]:
        """Its solid cables, the longest first."""
        joints = frozenset(self.channel.joints)
        return tuple(cable for cable in longest_first(self.channel.cables) if not is_cord(cable, joints))


def copper_links(facts: Facts) -> Iterable[CopperLink]:
    """The links over twisted pair that can come up, with their channels."""
    for link in facts.topology.links:
        if link.channel is not None and link.copper is not None and link.runs:
            yield CopperLink(link, link.channel, link.copper)


def together(states: Iterable[State]) -> State:
    """How a limit stands where one of several rates and categories is meant; kept where there is none."""
    found = set(states)
    return found.pop() if len(found) == 1 else "open" if found else "kept"


def lacks(rule: Rule[Any, Facts], copper: CopperLink, facts: Facts) -> NotChecked:
    """The fact for want of which a rule is open on a link."""
    missing = missing_fact(copper.link, facts.plan)
    return rule.not_checked(missing.where, reason=missing.reason, decides=missing.decides)


def beyond(run: CopperRun, length_m: float) -> bool:
    """Whether the known parts of a run are longer than a length [m]."""
    return run.least_m > length_m + TOLERANCE_M


def kind_of(run: CopperRun) -> str:
    """What a run is made of: unscreened category 6."""
    screen = "screened" if run.screened else "unscreened"
    return f"{screen} category {run.lowest_category}" if run.category_known else "unknown category"


def shorter_or_better(copper: CopperLink, row: CopperReach, facts: Facts) -> str:
    """The step where a run is longer than a row assures: what is promised counts, not what may just work."""
    better = _replaced(copper, facts) or "put a switch on the way, or lay fibre or another medium made for the distance"
    if row.assured_m is None:
        return f"{better[0].upper()}{better[1:]}."
    return f"Shorten it to {length_text(row.assured_m)}, or {better}."


def _replaced(copper: CopperLink, facts: Facts) -> str | None:
    """What to replace so that its rate is promised over so far; None where no category does it."""
    enough = enough_category(copper.run, copper.rates[0])
    if enough is None:
        return None
    cables, joints = parts_below(facts.plan, copper.channel, enough.category)
    unread = [cable for cable in copper.channel.cables if cable.category == "unknown"]
    parts: list[Cable | PortRef] = [*cables, *joints, *unread]
    return f"replace {listed(parts)} by {good_categories(copper.run, copper.rates[0])}"


def reach_sources() -> tuple[Citation, ...]:
    """Every source of a reach over twisted pair."""
    return tuple(dict.fromkeys(row.source for row in copper_reach().values()))
