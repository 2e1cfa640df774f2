"""The rule about joints: how many passive ports a channel of twisted pair may run through."""

from __future__ import annotations

from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import port_place
from netaudit.model.plan import Cable
from netaudit.rules.cabling.channels import in_a_row, led_by, longest_first
from netaudit.rules.cabling.copper_links import CopperLink, State, copper_links, lacks, together
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.standards.copper import Count, most_connections
from netaudit.standards.phys import base_t, phys
from netaudit.units import both_rates_text


def _judge(copper: CopperLink, facts: Facts) -> Judgement:
    mosts = {rate: most_connections(rate) for rate in copper.rates if base_t(rate) is not None}
    state = together(_state(copper, most) for most in mosts.values())
    if state == "kept":
        return None
    if state == "open":
        return lacks(TOO_MANY_CONNECTIONS, copper, facts)
    rate, most = max(mosts.items(), key=lambda item: item[1].count)
    joints, between = copper.channel.joints, _between(copper)
    return TOO_MANY_CONNECTIONS.finding(
        *led_by(between, copper.channel),
        *map(port_place, joints),
        message=f"{in_a_row(copper.channel)}: joined at {len(joints)} places ({listed(joints)}), "
        f"where {both_rates_text(rate)} bears {most.count}",
        remedy=f"Lead one cable past at least {len(joints) - most.count} of {listed(joints)}: "
        f"without {between[0].name} two joints fewer are on the way.",
        source=most.source,
        measured=Measure(len(joints), ""),
        limit=Measure(most.count, ""),
    )


def _state(copper: CopperLink, most: Count) -> State:
    return "broken" if copper.run.connections > most.count else "kept"


def _between(copper: CopperLink) -> tuple[Cable, ...]:
    """The cables between two passive ports, the shortest first: the one that is most easily done without."""
    joints = frozenset(copper.channel.joints)
    inner = [cable for cable in copper.channel.cables if joints.issuperset(cable.ends)]
    return longest_first(inner)[::-1]


def _sources() -> tuple[Citation, ...]:
    rates = [phy.rate_bit_per_s for phy in phys().values() if phy.medium == "copper"]
    return tuple(dict.fromkeys(most_connections(rate).source for rate in rates))


TOO_MANY_CONNECTIONS = Rule(
    name="too-many-connections",
    family="cabling",
    severity="fail",
    subjects=copper_links,
    judge=_judge,
    what="A run of twisted pair that passes through more outlets and panels than a channel may.",
    why="Each joint reflects and leaks a little of the signal; the limits on length count on a few of them.",
    todo="Lead one cable past an outlet or panel that is not needed.",
    sources=_sources,
)
