"""Rules about ports: do the two ends of a link find a rate, and is each port used once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from netaudit.citation import PLAN
from netaudit.listing import either, listed
from netaudit.model.finding import Judgement
from netaudit.model.place import PortRef, cable_place, port_place
from netaudit.model.plan import Cable
from netaudit.network.channels import Channel
from netaudit.network.links import Link, own_rates
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import missing_fact
from netaudit.rules.rule import Rule
from netaudit.standards.phys import phys
from netaudit.units import both_rates_text


def _wired_links(facts: Facts) -> Iterable[Link]:
    return (link for link in facts.topology.links if link.channel is not None)


def _judge_rates(link: Link, facts: Facts) -> Judgement:
    if link.rates is None:
        missing = missing_fact(link, facts.plan)
        return NO_COMMON_RATE.not_checked(missing.where, reason=missing.reason, decides=missing.decides)
    if link.rates or link.channel is None:
        return None
    ends = [(link.near, link.near_rates), (link.far, link.far_rates)]
    ends.sort(key=lambda end: (end[1] is None, len(end[1] or ())))
    (deciding, few), (other, many) = ends
    cables = link.channel.cables
    return NO_COMMON_RATE.finding(
        port_place(deciding),
        port_place(other),
        *(cable_place(cable.name) for cable in cables),
        message=f"{deciding} {_runs(deciding, few, link.channel, facts)}, "
        f"{other} {_runs(other, many, link.channel, facts)}{_part_of(cables)}: "
        "no rate in common, they never link",
        remedy=_better_cable(link.channel, facts) or _common_rate_remedy(facts, ends),
        source=PLAN,
    )


def _runs(ref: PortRef, rates: Sequence[int] | None, channel: Channel, facts: Facts) -> str:
    """What a port runs, whatever the cable takes away; where its module is not for its cage, what each of them runs."""
    if rates is None:
        return "is not said to run any"
    port = facts.port(ref)
    module_rate = None if port.module is None else phys()[port.module].rate_bit_per_s
    if port.rates is not None and module_rate is not None and module_rate not in port.rates.bit_per_s:
        cage = listed(map(both_rates_text, port.rates.bit_per_s))
        return f"is a cage that runs {cage} with a {port.module} module that runs {both_rates_text(module_rate)}"
    own = own_rates(port, channel, ref) or rates
    return f"runs {'only ' if len(own) == 1 else ''}{listed(map(both_rates_text, own))}"


def _part_of(cables: Sequence[Cable]) -> str:
    """What made-up cables and breakouts take away, as clauses."""
    made_up = (
        f", {cable.name} is made for {listed(map(both_rates_text, cable.rates.bit_per_s))}"
        for cable in cables
        if cable.rates is not None
    )
    divided = (
        f", {cable.name} divides the rate of {cable.from_port} by {len(cable.to_ports)}"
        for cable in cables
        if len(cable.to_ports) > 1
    )
    return "".join((*made_up, *divided))


def _better_cable(channel: Channel, facts: Facts) -> str | None:
    """The cable that its ports would run, where a made-up one alone keeps them apart."""
    made_up = [cable for cable in channel.cables if cable.rates is not None]
    near, far = (own_rates(facts.port(ref), channel, ref) for ref in (channel.near, channel.far))
    shared = [rate for rate in near or () if rate in (far or ())]
    if not made_up or not shared:
        return None
    return f"Use a cable made for {both_rates_text(shared[0])} instead of {listed(made_up)}."


def _common_rate_remedy(facts: Facts, ends: Sequence[tuple[PortRef, Sequence[int] | None]]) -> str:
    """A free port of the same device that fits the other end, or else the rate that is wanted."""
    for (port, _), (other, rates) in (ends, ends[::-1]):
        free = facts.free.like(port, rates or ())
        if free is not None:
            return f"Move the cable from {port} to {free}, which is free and has a rate in common with {other}."
    (deciding, _), (_, rates) = ends
    wanted = either(both_rates_text(rate) for rate in rates) if rates else "a common rate"
    return f"Use a port or a module at {deciding} that runs {wanted}."


NO_COMMON_RATE = Rule(
    name="no-common-rate",
    family="ports",
    severity="fail",
    subjects=_wired_links,
    judge=_judge_rates,
    what="Two ports on one cable that can run no rate in common, modules and made-up cables counted in.",
    why="The lamp stays dark, and it looks like a broken cable. Many 10 Gb/s cages run only 10 and 1 Gb/s, "
    "so that a 2.5 Gb/s adapter finds nothing there.",
    todo="Use a port or a module that runs one of the rates of the other end.",
)


def _crowded_ports(facts: Facts) -> Iterable[tuple[PortRef, Sequence[Cable]]]:
    """Every active port that has a cable, with its cables."""
    for port, cables in facts.topology.cabling.cables_at.items():
        if not facts.plan.devices[port.device].passive:
            yield port, cables


def _judge_use(subject: tuple[PortRef, Sequence[Cable]], facts: Facts) -> Judgement:
    port, cables = subject
    if len(cables) == 1:
        return None
    device = facts.plan.devices[port.device]
    free = facts.free.like(port, rates.bit_per_s if (rates := device.ports[port.port].rates) else ())
    step = f"Plug {cables[1].name} into {free}, which is free." if free else f"Plug {cables[1].name} into another port."
    return PORT_USED_TWICE.finding(
        port_place(port),
        *(cable_place(cable.name) for cable in cables),
        message=f"{port} takes one plug, and {listed(cables)} are plugged into it",
        remedy=step,
        source=PLAN,
    )


PORT_USED_TWICE = Rule(
    name="port-used-twice",
    family="ports",
    severity="fail",
    subjects=_crowded_ports,
    judge=_judge_use,
    what="A port of a computer, a switch or a storage into which more than one cable is plugged.",
    why="It cannot be built as planned, and every port count that follows from the plan is wrong.",
    todo="Give each cable a port of its own.",
)
