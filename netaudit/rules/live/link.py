"""Live rules about the link: does the port hear its other end, and at the rate that was planned."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.citation import OBSERVED
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.machine_state import Interface
from netaudit.model.place import port_place
from netaudit.model.situation import Situation
from netaudit.rules.live.gaps import gap
from netaudit.rules.live.remedies import far_end_of
from netaudit.rules.live.roads import leaving, watched
from netaudit.rules.live.settings import negotiate_step
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import interface_place
from netaudit.units import both_rates_text

FAST_ETHERNET_BIT_PER_S = 100_000_000
"""The best rate of two pairs, which a cable with a bad pair falls back to [bit/s]; IEEE 802.3 clause 25."""


def _judge_carrier(state: Interface, situation: Situation) -> Judgement:
    off = state.up is False
    if state.carrier is not False and not off:
        return None
    pointing = [use for use in leaving(situation) if use.interface == state.name]
    still = ", and the route still points there" if pointing else ""
    meant = f", the planned way to {situation.storage_name}," if situation.is_planned(state.name) else ""
    why = "is switched off" if off else "hears nothing from the other end of its cable"
    return CARRIER_LOST.finding(
        interface_place(state.name),
        message=f"{situation.named(state.name)}{meant} {why}{still}: nothing can pass",
        remedy=f"Switch {state.name} on again."
        if off
        else f"Push in both plugs of its cable, at {state.name} and at {far_end_of(situation, state.name)}, and look "
        "whether the lamps light up; then try another cable, then another port of the switch.",
        source=OBSERVED,
    )


CARRIER_LOST = Rule(
    name="carrier-lost",
    family="live",
    severity="fail",
    subjects=watched,
    judge=_judge_carrier,
    what="The port that the route or the plan means without a link: its cable is out, broken, or the far end is off.",
    why="The port keeps its address and its route, so that the system goes on sending into a dead cable.",
    todo="Push in both plugs, look at the lamps, try another cable, then another port of the switch.",
    sources=observed,
)


class Expected(NamedTuple):
    """A live link, and the rate that the plan expects of it."""

    state: Interface
    rate_bit_per_s: int


def _expected_links(situation: Situation) -> Iterator[Expected]:
    for state in watched(situation):
        port = situation.expected_port(state.name)
        if port is not None and state.carrier and port.agreed_bit_per_s is not None:
            yield Expected(state, port.agreed_bit_per_s)


def _judge_plan(link: Expected, situation: Situation) -> Judgement:
    state, planned = link
    where = interface_place(state.name)
    if state.made_up_rate or state.rate_bit_per_s is None:
        why = "The driver of {} makes its rate up" if state.made_up_rate else "This system does not tell the rate of {}"
        told = gap(
            LINK_BELOW_PLAN.name,
            situation,
            why.format(state.name),
            f"read the rate at {far_end_of(situation, state.name)}: {both_rates_text(planned)} is planned",
        )
        return LINK_BELOW_PLAN.not_checked(where, reason=told.reason, decides=told.decides)
    if state.rate_bit_per_s >= planned:
        return None
    port = situation.expected_port(state.name)
    return LINK_BELOW_PLAN.finding(
        where,
        *(() if port is None else (port_place(port.port),)),
        message=f"{situation.named(state.name)} runs at {both_rates_text(state.rate_bit_per_s)}, and "
        f"{both_rates_text(planned)} is planned: {_lists(state, planned, situation)}",
        remedy=_faster(state, planned, situation),
        source=OBSERVED,
        measured=Measure(state.rate_bit_per_s, "bit/s"),
        limit=Measure(planned, "bit/s"),
    )


def _lists(state: Interface, wanted: int, situation: Situation) -> str:
    """What this end and the other one offer, as a clause."""
    far = far_end_of(situation, state.name)
    if state.supported is not None and wanted not in state.supported:
        return f"its adapter can run {_rates(state.supported)} only"
    if state.offered is not None and wanted not in state.offered:
        return f"it does not offer that rate, only {_rates(state.offered)}"
    if state.partner is not None and wanted not in state.partner:
        return f"{far} offers {_rates(state.partner)} only"
    if state.offered is not None and state.partner is not None:
        return "both ends offer it, so that the cable between them holds it back"
    return f"what {far} offers is not told, so that it is either that port or the cable"


def _rates(rates: tuple[int, ...]) -> str:
    return listed([both_rates_text(rate) for rate in rates]) if rates else "nothing"


def _faster(state: Interface, wanted: int, situation: Situation) -> str:
    """The step that brings a link to a rate."""
    far = far_end_of(situation, state.name)
    if state.supported is not None and wanted not in state.supported:
        return f"Use an adapter or a port of this machine that runs {both_rates_text(wanted)}."
    if state.offered is not None and wanted not in state.offered:
        return f"Set the speed of {state.name} to automatic, with every rate offered, and look for a newer driver."
    if state.partner is not None and wanted not in state.partner:
        return f"Plug the cable into a port that runs {both_rates_text(wanted)}, or set {far} to automatic."
    two_pairs = state.rate_bit_per_s == FAST_ETHERNET_BIT_PER_S
    pairs = (
        " At 100 Mb/s only two of the four pairs are good: look at the plugs and the wall jack first."
        if two_pairs
        else ""
    )
    halving = (
        f"Halve the run: join {state.name} and {far} by one short cable that is known to be good. If the rate is "
        "there, add the wall run, then the panel, until it drops: the last part added is the one to replace."
    )
    return f"{halving}{pairs} Leave both ends on automatic: forcing a rate only hides the fault."


LINK_BELOW_PLAN = Rule(
    name="link-below-plan",
    family="live",
    severity="fail",
    subjects=_expected_links,
    judge=_judge_plan,
    what="A link that agreed on a lower rate than the plan expects of its two ports.",
    why="A worn plug or a long cord drops a 10 Gb/s link to 1 Gb/s without a word, and every file still opens.",
    todo="Compare what both ends offer; where both offer the rate, replace the cable part by part.",
    sources=observed,
)


def _live_links(situation: Situation) -> Iterator[Interface]:
    """Live links whose rate is their own, and that the plan does not find too slow already."""
    slow = {
        link.state.name for link in _expected_links(situation) if (link.state.rate_bit_per_s or 0) < link.rate_bit_per_s
    }
    for state in watched(situation):
        known = state.duplex == "half" or (state.partner is not None and _own(state) is not None)
        if state.carrier and not state.made_up_rate and state.name not in slow and known:
            yield state


def _own(state: Interface) -> tuple[int, ...] | None:
    return state.supported if state.supported is not None else state.offered


def _judge_capability(state: Interface, situation: Situation) -> Judgement:
    common = set(_own(state) or ()) & set(state.partner or ())
    rate, best = state.rate_bit_per_s, max(common, default=0)
    if rate is not None and rate < best:
        return LINK_BELOW_CAPABILITY.finding(
            interface_place(state.name),
            message=f"{situation.named(state.name)} runs at {both_rates_text(rate)} although both ends can run "
            f"{both_rates_text(best)}",
            remedy=_faster(state, best, situation),
            source=OBSERVED,
            measured=Measure(rate, "bit/s"),
            limit=Measure(best, "bit/s"),
        )
    if state.duplex != "half":
        return None
    return LINK_BELOW_CAPABILITY.finding(
        interface_place(state.name),
        message=f"{situation.named(state.name)} runs at half duplex: it sends or receives, never both",
        remedy=f"Set {state.name} and {far_end_of(situation, state.name)} to automatic: where one of them is fixed "
        f"the other takes half duplex. On this machine {negotiate_step(situation, state.name)}",
        source=OBSERVED,
    )


LINK_BELOW_CAPABILITY = Rule(
    name="link-below-capability",
    family="live",
    severity="warn",
    subjects=_live_links,
    judge=_judge_capability,
    what="A link slower than the best rate that both of its ends can run, or at half duplex.",
    why="The ports paid for more: the cable between them, or a rate set by hand, takes it away.",
    todo="Set both ends to automatic, then replace the cable part by part.",
    sources=observed,
)
