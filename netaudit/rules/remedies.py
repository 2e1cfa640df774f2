"""The steps that rules of several families advise: what fact would decide, and what a link gives as it is."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

from netaudit.calculations.copper import (
    CopperRun,
    base_t_rates,
    copper_promise,
    enough_category,
    possible_reaches,
    reach,
)
from netaudit.calculations.promise import Promise
from netaudit.model.place import Place, PortRef, cable_place, port_place
from netaudit.model.plan import COPPER_CATEGORIES, Cable, Plan
from netaudit.network.links import Link
from netaudit.network.media import Carrier, parts_below
from netaudit.rules.facts import Facts
from netaudit.units import both_rates_text, length_text, measure_text, temperature_text

JACKETS = ("6A", "6", "5e")
"""The categories that an unread jacket in an edit room mostly turns out to have: common practice, no source."""


class Missing(NamedTuple):
    """A fact that is missing, and how it would decide."""

    where: Place
    """What to look at."""
    reason: str
    decides: str


def missing_fact(link: Link, plan: Plan) -> Missing:
    """The fact for want of which the promise of a link is open."""
    if link.channel is None:
        return Missing(
            link.place,
            "A radio is promised no rate",
            f"plug {link.near.device} into a wired port, or measure at the desk",
        )
    for port, rates in ((link.near, link.near_rates), (link.far, link.far_rates)):
        if rates is None:
            reason = f"The rates of {port} are not given"
            return Missing(port_place(port), reason, f"write down `rates` of {port}, as its data sheet has them")
    if link.copper is not None:
        return _missing_of_copper(link, link.copper, plan)
    unsized = [cable for cable in link.channel.cables if cable.length_m is None]
    cable = (unsized or list(link.channel.cables))[0]
    if unsized:
        return Missing(
            cable_place(cable.name), f"The length of {listed(unsized)} is not given", f"measure {listed(unsized)}"
        )
    return Missing(
        cable_place(cable.name),
        f"What {listed(link.channel.cables)} and the modules at its ends are is not given",
        f"write down the category of {listed(link.channel.cables)} and the module in {link.near} and {link.far}",
    )


def _missing_of_copper(link: Link, run: CopperRun, plan: Plan) -> Missing:
    assert link.channel is not None  # noqa: S101 - copper runs in a channel
    cables = link.channel.cables
    unread = [cable for cable in cables if cable.category == "unknown"]
    if unread:
        reason = f"The category of {listed(unread)} is not known"
        return Missing(cable_place(unread[0].name), reason, _jacket_decides(link, run, plan, unread))
    blank = [joint for joint in link.channel.joints if _port_category(plan, joint) == "unknown"]
    if blank:
        decides = f"read the category moulded into {listed(blank)}"
        return Missing(port_place(blank[0]), f"The category of {listed(blank)} is not known", decides)
    unsized = [cable for cable in cables if cable.length_m is None]
    if unsized:
        reason = f"The length of {listed(unsized)} is not given"
        return Missing(cable_place(unsized[0].name), reason, _length_decides(link, run, unsized))
    cords = [cable for cable in cables if cable.cord_awg is None and not cable.installed]
    if copper_promise(run, link.agreed_bit_per_s or 0, plan.regime).why == "cords" and cords:
        reason = f"The gauge of {listed(cords)} is not given, and thin cords use up the loss that is left"
        return Missing(cable_place(cords[0].name), reason, f"read the gauge printed on {listed(cords)}: 24 AWG is best")
    reason = "The figures for air as warm as that are not firm"
    return Missing(
        cable_place(cables[0].name), reason, f"measure the air along {listed(cables)}, or move it somewhere cooler"
    )


def _jacket_decides(link: Link, run: CopperRun, plan: Plan, unread: Sequence[Cable]) -> str:
    """What each category that may stand on the jacket would mean for the promised rate."""
    meanings = []
    for category in JACKETS:
        read = replace(run, lowest_category=category, category_known=True)
        promised = next(
            (rate for rate in link.rates or () if copper_promise(read, rate, plan.regime).answer == "yes"), None
        )
        if promised is not None:
            meanings.append(f"{category} means {both_rates_text(promised)}")
    jacket = f"read the jacket of {listed(unread)}"
    return f"{jacket}: {', '.join(meanings)}" if meanings else jacket


def _length_decides(link: Link, run: CopperRun, unsized: Sequence[Cable]) -> str:
    rates = link.rates[:1] if link.rates else base_t_rates()
    rows = possible_reaches(run, rates)
    good_m = min((row.assured_m or 0.0 for row in rows), default=0.0) - run.least_m
    together = "together " if len(unsized) > 1 else ""
    if good_m > 0:
        return f"measure {listed(unsized)}: {together}up to {length_text(good_m)} is good"
    return f"measure {listed(unsized)}"


def held_back_by(link: Link, plan: Plan) -> str:
    """Why the cables of a link are promised less than its ports agree on, as a clause."""
    agreed = link.agreed_bit_per_s
    if link.channel is None or link.carrier is None or agreed is None:
        return f"{link.place} is promised no rate"
    cables = f"{listed(link.channel.cables)} {_is(link.channel.cables)}"
    run = link.copper
    promise = link.carrier.promise(agreed)
    if run is None:
        return _held_back_beside_copper(link.carrier, promise, cables, agreed)
    why = promise.why
    if why == "category":
        old = [*(cable for cable in link.channel.cables if cable.category == run.lowest_category)]
        joints = [joint for joint in link.channel.joints if _port_category(plan, joint) == run.lowest_category]
        return f"{listed([*old, *joints])} {_is([*old, *joints])} category {run.lowest_category}"
    screen = "screened" if run.screened else "unscreened"
    reasons = {
        "cords": f"the cords among {listed(link.channel.cables)} use up the loss that the run has left",
        "warmth": f"{cables} too long for air of {temperature_text(run.ambient_c)}",
        "connections": f"{cables} joined at {run.connections} places",
    }
    return reasons.get(why, f"{cables} {length_text(run.least_m)} of {screen} category {run.lowest_category}")


def _held_back_beside_copper(carrier: Carrier, promise: Promise, cables: str, agreed_bit_per_s: int) -> str:
    kind = " and ".join(carrier.kinds)
    if promise.why == "optics":
        return f"the modules at its ends, {' and '.join(map(str, carrier.modules))}, differ"
    if promise.why == "loss" and promise.limit is not None:
        return f"{cables} worth more loss than the {measure_text(*promise.limit)} that the modules bridge"
    if promise.why in ("length", "reach") and promise.limit is not None:
        reach = f"{both_rates_text(agreed_bit_per_s)} reaches {measure_text(*promise.limit)}"
        return f"{cables} {length_text(carrier.least_m)} of {kind}, over which {reach}"
    return f"{cables} {kind or 'of several media'}, which is not made for {both_rates_text(agreed_bit_per_s)}"


def better_cabling(link: Link, plan: Plan) -> str:
    """The step that lets the cables of a link carry what its ports agree on."""
    agreed = link.agreed_bit_per_s
    if link.channel is None or agreed is None:
        return "Use a cable."
    run = link.copper
    why = link.carrier.promise(agreed).why if run is None and link.carrier is not None else None
    if why == "optics":
        return f"Put the same kind of module into {link.near} and {link.far}."
    if why == "grade":
        return f"Put modules into {link.near} and {link.far} that are made for it, or a cable that is made for them."
    better = enough_category(run, agreed) if run is not None else None
    if run is None or better is None:
        return f"Make {listed(link.channel.cables)} shorter, or use a medium made for that distance."
    cables, joints = parts_below(plan, link.channel, better.category)
    if cables or joints:
        return f"Replace {listed([*cables, *joints])} by {good_categories(run, agreed)}."
    return f"Shorten {listed(link.channel.cables)}, use thicker cords, or keep the run cooler."


def good_categories(run: CopperRun, rate_bit_per_s: int) -> str:
    """The categories that carry a rate over a channel: the one that is enough, and the one that reaches farther."""
    better = enough_category(run, rate_bit_per_s)
    if better is None or better.assured_m is None:
        return "nothing: no category carries that rate so far"
    text = f"category {better.category}, which is good to {length_text(better.assured_m)}"
    later = COPPER_CATEGORIES[COPPER_CATEGORIES.index(better.category) + 1 :]
    rows = (reach(rate_bit_per_s, category, screened=run.screened) for category in later)
    farther = next((row for row in rows if row and row.assured_m and row.assured_m > better.assured_m), None)
    return text if farther is None else f"{text} ({farther.category} to {length_text(farther.assured_m or 0.0)})"


def _port_category(plan: Plan, port: PortRef) -> str | None:
    return plan.devices[port.device].ports[port.port].category


def _is(things: Sequence[object]) -> str:
    return "is" if len(things) == 1 else "are"


def as_it_is(link: Link) -> str:
    """What the published limits promise over a link as it stands, as a sentence."""
    promised = link.promised.bit_per_s
    if promised is None:
        return "What it is promised as it is stays open."
    if promised == 0:
        return "As it is, no rate is promised."
    return f"As it is, {both_rates_text(promised)} is promised."


def free_port(facts: Facts, port: PortRef, rates: Collection[int]) -> PortRef | None:
    """A port of the same device and connector that has no cable and runs one of some rates."""
    device = facts.plan.devices[port.device]
    connector = device.ports[port.port].connector
    for name, candidate in device.ports.items():
        ref = PortRef(port.device, name)
        if ref in facts.topology.cabling.cables_at or candidate.rates is None or candidate.module is not None:
            continue
        if candidate.connector == connector and not set(rates).isdisjoint(candidate.rates.bit_per_s):
            return ref
    return None


def listed(things: Iterable[object]) -> str:
    """Names in a row: W01, C01 and C02."""
    names = [thing.name if isinstance(thing, Cable) else str(thing) for thing in things]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
