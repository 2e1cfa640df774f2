"""Remedies: what holds a link back, and what would let its cables carry what its ports have."""

from __future__ import annotations

from math import floor

from netaudit.calculations.copper import base_t_rates, enough_category, reach
from netaudit.calculations.copper_run import CopperRun, loss_bounds_m
from netaudit.calculations.promise import Promise
from netaudit.listing import listed
from netaudit.model.place import PortRef
from netaudit.model.plan import COPPER_CATEGORIES, Plan
from netaudit.network.channels import Channel
from netaudit.network.links import Link
from netaudit.network.media import Carrier, is_cord, parts_below
from netaudit.rules.optics import alike, chosen
from netaudit.rules.words import are
from netaudit.standards.copper import cord_rule
from netaudit.standards.phys import base_t
from netaudit.units import both_rates_text, length_text, measure_text, temperature_text


def held_back_by(link: Link, plan: Plan) -> str:
    """Why the cables of a link are promised less than its ports have, as a clause."""
    fastest = link.fastest_bit_per_s
    if link.channel is None or link.carrier is None or fastest is None:
        return f"{link.place} is promised no rate"
    promise = link.carrier.promise(fastest)
    if link.copper is not None:
        return _held_back_copper(link.channel, link.copper, fastest, promise, plan)
    cables = f"{listed(link.channel.cables)} {are(link.channel.cables)}"
    kind = " and ".join(f"category {kind}" if kind in COPPER_CATEGORIES else kind for kind in link.carrier.kinds)
    if promise.why == "optics":
        modules = " and ".join(map(str, link.carrier.modules))
        return f"the modules at {link.near} and {link.far}, {modules}, differ"
    if promise.why == "cores":
        return f"{cables} {kind}, whose cores are not equally wide"
    if promise.why == "fibres" and promise.limit is not None:
        return f"{cables} short of the {measure_text(*promise.limit)} fibres that {link.carrier.modules[0]} needs"
    if promise.why == "medium":
        whose = f"{cables} {kind}, which does not fit" if kind else "no plug fits both"
        return f"{whose} {link.near} and {link.far}"
    if promise.why == "loss" and promise.limit is not None:
        return f"{cables} worth more loss than the {measure_text(*promise.limit)} that the modules bridge"
    if promise.why in ("length", "reach") and promise.limit is not None:
        reaches = f"{both_rates_text(fastest)} reaches {measure_text(*promise.limit)}"
        return f"{cables} {length_text(link.carrier.least_m)} of {kind}, over which {reaches}"
    module = link.carrier.modules[0]
    return f"{cables} {kind}, which {module or both_rates_text(fastest)} is not specified for"


def _held_back_copper(channel: Channel, run: CopperRun, rate_bit_per_s: int, promise: Promise, plan: Plan) -> str:
    cables = f"{listed(channel.cables)} {are(channel.cables)}"
    if base_t(rate_bit_per_s) is None:
        return f"{cables} twisted pair, of which no category is specified for {both_rates_text(rate_bit_per_s)}"
    if promise.why == "category" and run.lowest_category is not None:
        old = [cable for cable in channel.cables if cable.category == run.lowest_category]
        parts = [*old, *(joint for joint in channel.joints if _category(plan, joint) == run.lowest_category)]
        return f"{listed(parts)} {are(parts)} category {run.lowest_category}"
    screen = "screened" if run.screened else "unscreened"
    least = length_text(run.least_m) if run.length_known else f"at least {length_text(run.least_m)}"
    length = f"{cables} {least} of {screen} category {run.lowest_category}"
    if promise.why == "material":
        clad = [cable for cable in channel.cables if cable.material != "copper"]
        return f"{listed(clad)} {are(clad)} copper-clad aluminium, which no standard allows"
    if promise.why == "medium":
        return f"{cables} twisted pair, which does not fit the ports"
    if promise.why == "cords" and promise.limit is not None:
        worth = length_text(loss_bounds_m(run, plan.regime)[0])
        return f"{length}, with its cords worth {worth} of solid cable, {measure_text(*promise.limit)} at the most"
    if promise.why == "warmth" and promise.limit is not None:
        solid = f"{length_text(run.fixed_m)} of solid cable"
        return f"{solid} in air of {temperature_text(run.ambient_c)} may be {measure_text(*promise.limit)} at the most"
    if promise.why == "connections" and promise.limit is not None:
        return f"{cables} joined at {run.connections} places, {measure_text(*promise.limit)} at the most"
    if promise.why == "reach" and promise.limit is not None and promise.limit.value:
        return f"{length}, over which that rate is promised to {measure_text(*promise.limit)}"
    return length


def better_cabling(link: Link, plan: Plan) -> str:
    """The step that lets the cables of a link carry what its ports have."""
    fastest = link.fastest_bit_per_s
    if link.channel is None or link.carrier is None or fastest is None:
        return "Use a cable."
    choice = chosen(link, plan)
    if choice is not None:
        return alike(choice)
    promise = link.carrier.promise(fastest)
    if link.copper is None:
        return _better_beside_copper(link, link.channel, link.carrier, promise)
    return _better_copper(link.channel, link.copper, fastest, promise, plan)


def _better_copper(channel: Channel, run: CopperRun, rate_bit_per_s: int, promise: Promise, plan: Plan) -> str:
    if base_t(rate_bit_per_s) is None:
        return beyond_twisted_pair(rate_bit_per_s)
    if promise.why == "material":
        return f"Replace {listed(cable for cable in channel.cables if cable.material != 'copper')} by solid copper."
    if promise.why == "connections" and promise.limit is not None:
        return f"Take out passive ports until {measure_text(*promise.limit)} are left."
    better = enough_category(run, rate_bit_per_s)
    if better is None:
        return f"Make {listed(channel.cables)} shorter, or use a medium made for that distance."
    cables, joints = parts_below(plan, channel, better.category)
    if cables or joints:
        return f"Replace {listed([*cables, *joints])} by {good_categories(run, rate_bit_per_s)}."
    if promise.why == "warmth":
        return f"Shorten the solid cable among {listed(channel.cables)}, or keep it cooler."
    return shorter_cords(channel, run, rate_bit_per_s, plan)


def beyond_twisted_pair(rate_bit_per_s: int) -> str:
    """The step where no category of twisted pair is specified for a rate [bit/s]."""
    most = both_rates_text(base_t_rates()[0])
    return (
        f"No twisted pair is specified for {both_rates_text(rate_bit_per_s)}: use fibre or a made-up cable, "
        f"or ports that run {most} or less."
    )


def shorter_cords(channel: Channel, run: CopperRun, rate_bit_per_s: int, plan: Plan) -> str:
    """The step where cords use up the loss at a rate [bit/s], with the length that is left for them."""
    cords = [cable for cable in channel.cables if is_cord(cable, frozenset(channel.joints))]
    rule = cord_rule(plan.regime)
    left_m = rule.budgets[rate_bit_per_s].value - run.fixed_m
    worst = max((rule.most_factor(cord.gauge_awg) for cord in run.cords), default=1.0)
    gauge_awg = rule.best_gauge_awg
    best = rule.factors[gauge_awg].value
    together = " in all" if len(cords) > 1 else ""
    shorten = f"Shorten {listed(cords or channel.cables)} to {length_text(rounded_down(left_m / worst))}{together}"
    if best < worst:
        thicker = f"use cords of {gauge_awg} AWG, good to {length_text(rounded_down(left_m / best))}{together}"
        return f"{shorten}, {thicker}, or lay solid cable instead."
    return f"{shorten}, or lay solid cable instead."


def rounded_down(value: float) -> float:
    """A number to a tenth, never more than it is."""
    return floor(value * 10 + 1e-6) / 10


def _better_beside_copper(link: Link, channel: Channel, carrier: Carrier, promise: Promise) -> str:
    if promise.why == "cores":
        return f"Use one kind of fibre from {link.near} to {link.far}."
    if promise.why == "fibres" and promise.limit is not None:
        return f"Use {measure_text(*promise.limit)} fibres of {listed(channel.cables)}, or modules that need fewer."
    if promise.why in ("grade", "medium"):
        return f"Use ports or modules at {link.near} and {link.far} that are made for it, or a cable made for them."
    if promise.why in ("length", "reach") and promise.limit is not None:
        limit = measure_text(*promise.limit)
        return f"Shorten {listed(channel.cables)} to {limit}, or use a medium made for {length_text(carrier.least_m)}."
    return f"Make {listed(channel.cables)} shorter or with fewer joints, or use a medium made for that distance."


def good_categories(run: CopperRun, rate_bit_per_s: int) -> str:
    """The category that carries a rate the farthest, and the one that is just enough for a channel."""
    enough = enough_category(run, rate_bit_per_s)
    if enough is None or enough.assured_m is None:
        return "nothing: no category carries that rate so far"
    later = COPPER_CATEGORIES[COPPER_CATEGORIES.index(enough.category) + 1 :]
    rows = (reach(rate_bit_per_s, category, screened=run.screened) for category in later)
    farther = next((row for row in rows if row and row.assured_m and row.assured_m > enough.assured_m), None)
    if farther is None:
        return f"category {enough.category}, good to {length_text(enough.assured_m)}"
    return (
        f"category {farther.category}, good to {length_text(farther.assured_m or 0.0)} "
        f"({enough.category} is enough up to {length_text(enough.assured_m)})"
    )


def as_it_is(link: Link) -> str:
    """What the published limits promise over a link as it stands, as a sentence."""
    promised = link.promised.bit_per_s
    if promised is None:
        return "What it is promised as it is stays open."
    if promised == 0:
        return "As it is, no rate is promised."
    return f"As it is, {both_rates_text(promised)} is promised."


def _category(plan: Plan, port: PortRef) -> str | None:
    return plan.devices[port.device].ports[port.port].category
