"""Gaps: the fact for want of which a link's promise is open, and how it would decide."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

from netaudit.calculations.copper import base_t_rates, copper_promise, possible_reaches, room_left_m
from netaudit.calculations.copper_run import CopperRun
from netaudit.calculations.promise import Promise
from netaudit.listing import listed
from netaudit.model.place import Place, PortRef, cable_place, device_place, port_place
from netaudit.model.plan import Cable, Plan
from netaudit.network.channels import Channel
from netaudit.network.links import Link
from netaudit.network.media import Carrier, is_cord
from netaudit.network.tree import OpenMesh
from netaudit.rules.facts import Facts
from netaudit.rules.remedies import rounded_down
from netaudit.standards.copper import cord_rule
from netaudit.standards.modules import copper_modules
from netaudit.units import both_rates_text, length_text, measure_text

JACKETS = ("6A", "6", "5e")
"""The categories that an unread jacket in an edit room mostly turns out to have: common practice, no source."""


class Missing(NamedTuple):
    """A fact that is missing, and how it would decide."""

    where: Place
    """What to look at."""
    reason: str
    decides: str


def unknown_rates(port: PortRef) -> Missing:
    """The lack of a port's rates."""
    reason = f"The rates of {port} are not given"
    return Missing(port_place(port), reason, f"write down `rates` of {port}, as its data sheet has them")


def missing_fact(link: Link, plan: Plan) -> Missing:
    """The fact for want of which the promise of a link is open."""
    if link.channel is None or link.carrier is None:
        decides = f"plug {link.near.device} into a wired port, or measure at the desk"
        return Missing(link.place, "A radio is promised no rate", decides)
    if link.carrier.medium == "host" and link.rates is None:
        reason = f"What the bus of {link.near} carries over {listed(link.cables)} does not follow from the plan"
        decides = f"write down `bus` of {link.near}, such as `usb 10G`; where it is given, use a shorter cable"
        return Missing(port_place(link.near), reason, decides)
    for port, rates in ((link.near, link.near_rates), (link.far, link.far_rates)):
        if rates is None:
            return unknown_rates(port)
    rate = link.agreed_bit_per_s or 0
    gap = _unread(link, link.channel, plan) or unknown_length(link, plan) or _unnamed_module(link, link.carrier)
    return gap or _doubtful(link.channel, link.carrier, link.carrier.promise(rate))


def open_mesh(link: Link, facts: Facts) -> OpenMesh | None:
    """The rings through which a link runs and in which it is open what the spanning tree blocks; None without any."""
    return next((mesh for mesh in facts.topology.tree.open if link in mesh.links), None)


def undecided_tree(mesh: OpenMesh) -> Missing:
    """Why it is open which links of a mesh the spanning tree blocks, and what would settle it."""
    where = device_place(mesh.devices[0])
    ring = f"the ring of {listed(mesh.devices)}"
    if mesh.why == "cost":
        unknown = next((link for link in mesh.links if link.agreed_bit_per_s is None), mesh.links[0])
        reason = f"What {unknown.near} to {unknown.far} costs the spanning tree on {ring} is not known"
        decides = f"write down `rates` of {unknown.near} and {unknown.far}, or set `tree_costs: long`"
        return Missing(where, reason, decides)
    if mesh.why == "bond":
        reason = f"Makers count the cost of a bond in two ways, and on {ring} it decides which link the tree blocks"
        return Missing(where, reason, "look up in the switches which links are blocked, or set their path costs alike")
    reason = f"Which switch is the root of the spanning tree is not known, and on {ring} it decides what is blocked"
    return Missing(
        where, reason, "set `priority` on the switch that should be the root: the one with the fastest links"
    )


def _first(cables: Iterable[Cable]) -> Place:
    """The cable to look at first, by name: whichever end of a run comes first in the plan, it is the same one."""
    return cable_place(min(cable.name for cable in cables))


def _unread(link: Link, channel: Channel, plan: Plan) -> Missing | None:
    unread = [cable for cable in channel.cables if cable.category == "unknown"]
    if unread:
        reason = f"The category of {listed(unread)} is not known"
        return Missing(_first(unread), reason, _jacket_decides(link, link.copper, plan, unread))
    blank = [joint for joint in channel.joints if plan.devices[joint.device].ports[joint.port].category == "unknown"]
    if blank:
        decides = f"read the category moulded into {listed(blank)}"
        return Missing(port_place(blank[0]), f"The category of {listed(blank)} is not known", decides)
    return None


def _jacket_decides(link: Link, run: CopperRun | None, plan: Plan, unread: Sequence[Cable]) -> str:
    """What each category that may stand on the jacket would mean for the promised rate."""
    jacket = f"read the jacket of {listed(unread)}"
    if run is None:
        return jacket
    meanings = []
    for category in JACKETS:
        read = replace(run, lowest_category=category, category_known=True)
        promises = ((rate, copper_promise(read, rate, plan.regime).answer) for rate in link.rates or ())
        promised = next((rate for rate, answer in promises if answer == "yes"), None)
        if promised is not None:
            meanings.append(f"{category} means {both_rates_text(promised)}")
    return f"{jacket}: {', '.join(meanings)}" if meanings else jacket


def unknown_length(link: Link, plan: Plan) -> Missing | None:
    """The first length that is missing on a link, with what all that are missing may come to; None if none is."""
    cables = () if link.channel is None else link.channel.cables
    unsized = [cable for cable in cables if cable.length_m is None]
    if not unsized:
        return None
    reason = f"The length of {listed(unsized)} is not given"
    good_m = _good_length_m(link, unsized, plan)
    together = "together " if len(unsized) > 1 else ""
    good = f": {together}up to {length_text(rounded_down(good_m))} is good" if good_m is not None and good_m > 0 else ""
    return Missing(_first(unsized), reason, f"measure {listed(unsized)}{good}")


def _good_length_m(link: Link, unsized: Sequence[Cable], plan: Plan) -> float | None:
    """What twisted pair of unknown length may measure [m]; None for other media, where loss decides with the length."""
    run = link.copper
    if run is None or link.channel is None or link.carrier is None:
        return None
    joints = frozenset(link.channel.joints)
    only_cords = all(is_cord(cable, joints) for cable in unsized)
    factors = [cord_rule(plan.regime).most_factor(cable.cord_awg) for cable in unsized if only_cords]
    factor = max(factors, default=1.0)
    rows = possible_reaches(run, link.rates[:1] if link.rates else base_t_rates())
    lefts = [room_left_m(run, row, plan.regime, factor) for row in rows]
    modules = [module for phy, module in copper_modules().items() if phy in link.carrier.modules]
    return min([*lefts, *(module.reach_m - run.least_m for module in modules)], default=None)


def _unnamed_module(link: Link, carrier: Carrier) -> Missing | None:
    if carrier.medium != "fibre":
        return None
    bare = [port for port, module in zip((link.near, link.far), carrier.modules, strict=True) if module is None]
    if not bare:
        return None
    reason = f"Which module sits in {listed(bare)} is not given"
    return Missing(port_place(bare[0]), reason, f"write down `module` of {listed(bare)}, such as 10GBASE-SR")


def unknown_gauge(channel: Channel) -> Missing:
    """The gauge for want of which it is open what the cords of a channel lose."""
    bare = [cable for cable in channel.cables if cable.cord_awg is None and not cable.installed]
    if bare:
        reason = f"The gauge of {listed(bare)} is not given, and thin cords use up the loss that is left"
        return Missing(_first(bare), reason, f"read the gauge printed on {listed(bare)}: 24 AWG is best")
    where, cables = _first(channel.cables), listed(channel.cables)
    return Missing(where, f"How much loss the cords among {cables} add is not firmly known", f"shorten {cables}")


def uncharted_air(channel: Channel) -> Missing:
    """What to find out where no firm figure tells how far a channel reaches in air so warm."""
    where, cables = _first(channel.cables), listed(channel.cables)
    reason = f"How far {cables} can reach in air as warm as that is not firmly known"
    return Missing(where, reason, f"measure the air along {cables}, or move it somewhere cooler")


def _doubtful(channel: Channel, carrier: Carrier, promise: Promise) -> Missing:
    """Everything is stated, and still no firm figure decides."""
    where, cables = _first(channel.cables), listed(channel.cables)
    limit = "" if promise.limit is None else measure_text(*promise.limit)
    if promise.why == "cords":
        return unknown_gauge(channel)
    if promise.why == "warmth":
        return uncharted_air(channel)
    if promise.why == "loss" and limit:
        reason = f"With the worst joints that the standards allow, {cables} may lose more than the {limit} allowed"
        return Missing(
            where, reason, f"measure the loss of {cables} and write it down as `loss`: up to {limit} is good"
        )
    if promise.why == "loss":
        reason = f"No loss that {carrier.modules[0]} may bridge is published"
        return Missing(where, reason, f"compare the loss of {cables} with the data sheet of the modules")
    if promise.why == "reach" and limit:
        reason = f"Past {limit}, {cables} can work only as a link engineered for it"
        return Missing(where, reason, f"shorten {cables} to {limit}, or have the link engineered and measured")
    kind = " and ".join(carrier.kinds) or "what it is made of"
    return Missing(where, f"No published limit tells whether {kind} carries that rate", f"ask the maker of {cables}")
