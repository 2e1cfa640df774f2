"""Rules about agreed rates: do two ports meet at the best that each can run, and is that rate stated or presumed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from netaudit.citation import PLAN, Citation
from netaudit.listing import either, listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import PortRef, cable_place, port_place
from netaudit.network.channels import Channel
from netaudit.network.links import Link, own_rates
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import unknown_rates
from netaudit.rules.rule import Rule
from netaudit.standards.phys import base_t, phys
from netaudit.units import both_rates_text, rate_text

MIDDLE_RATES = (2_500_000_000, 5_000_000_000)
"""Rates that came to twisted pair ten years after 10 Gb/s, so that many 10 Gb/s ports do not know them [bit/s]."""


class End(NamedTuple):
    """A port with what it runs, cage and module, whatever the cable."""

    port: PortRef
    rates: tuple[int, ...] | None
    """The highest first [bit/s]; None is unknown."""


_Known = tuple[PortRef, tuple[int, ...]]


class Meeting(NamedTuple):
    """A wired link that comes up, or may, with what its ends could run."""

    link: Link
    channel: Channel
    poorer: End
    """The end with fewer rates; never one that is unknown."""
    richer: End


def _meetings(facts: Facts) -> Iterable[Meeting]:
    """The links of which an end could run more; one that runs one rate, or is unknown, can miss nothing better."""
    for link in facts.topology.links:
        if link.channel is None or not link.runs:
            continue
        ends = [End(ref, own_rates(facts.port(ref), link.channel, ref)) for ref in (link.near, link.far)]
        poorer, richer = sorted(ends, key=lambda end: (end.rates is None, len(end.rates or ())))
        if poorer.rates is not None and (richer.rates is not None or len(poorer.rates) > 1):
            yield Meeting(link, link.channel, poorer, richer)


def _judge_below(meeting: Meeting, facts: Facts) -> Judgement:
    link, channel, poorer, richer = meeting
    agreed = link.agreed_bit_per_s
    if agreed is None or poorer.rates is None or richer.rates is None:
        missing = unknown_rates(richer.port)
        return LINK_BELOW_BOTH.not_checked(missing.where, reason=missing.reason, decides=missing.decides)
    best = min(poorer.rates[0], richer.rates[0])
    if agreed >= best:
        return None
    higher = [rate for rate in poorer.rates if rate > agreed and rate in richer.rates]
    if higher:
        made_up = listed(cable for cable in channel.cables if cable.rates is not None)
        ends = f"{poorer.port} and {richer.port} both run {both_rates_text(higher[0])}"
        message = f"{ends}, but {made_up} leaves them only {both_rates_text(agreed)}"
        remedy = f"Use a cable made for {both_rates_text(higher[0])} instead of {made_up}."
    else:
        tops = ((poorer.port, poorer.rates[0]), (richer.port, richer.rates[0]))
        ends = " and ".join(f"{port} runs up to {both_rates_text(top)}" for port, top in tops)
        message = f"{ends}, but the fastest rate that both know is {both_rates_text(agreed)}"
        remedy = _meet_higher(agreed, (poorer.port, poorer.rates), (richer.port, richer.rates), facts)
    return LINK_BELOW_BOTH.finding(
        port_place(poorer.port),
        port_place(richer.port),
        *(cable_place(cable.name) for cable in channel.cables),
        message=message,
        remedy=remedy,
        source=PLAN,
        measured=Measure(agreed, "bit/s"),
        limit=Measure(best, "bit/s"),
    )


def _meet_higher(agreed: int, poorer: _Known, richer: _Known, facts: Facts) -> str:
    """A free port that meets the other end at a higher rate, or else what either end would have to run."""
    wanted = []
    for (port, _), (other, rates) in ((poorer, richer), (richer, poorer)):
        better = [rate for rate in rates if rate > agreed]
        free = facts.free.like(port, better)
        if free is not None:
            runs = facts.port(free).rates
            meets = max(set(better).intersection(() if runs is None else runs.bit_per_s))
            return f"Move the cable from {port} to {free}, which is free and meets {other} at {both_rates_text(meets)}."
        wanted.append(f"a port or a module at {port} that runs {either(map(both_rates_text, better))}")
    return f"Use {wanted[0]}, or {wanted[1]}."


LINK_BELOW_BOTH = Rule(
    name="link-below-both",
    family="ports",
    severity="warn",
    subjects=_meetings,
    judge=_judge_below,
    what="Two ports whose best common rate is below what each of them could run.",
    why="Both were paid for and neither is used: an adapter for 5 Gb/s in a port for 10 and 1 Gb/s runs 1 Gb/s.",
    todo="Pair ports that share their best rate, or use a cable made for it.",
)


def _middle_links(facts: Facts) -> Iterable[tuple[Link, Channel, int]]:
    """The wired links that agree on a rate in the middle, with that rate."""
    for link in facts.topology.links:
        agreed = link.agreed_bit_per_s
        if link.channel is not None and agreed in MIDDLE_RATES:
            yield link, link.channel, agreed


def _judge_middle(subject: tuple[Link, Channel, int], facts: Facts) -> Judgement:
    link, channel, agreed = subject
    for ref, other in ((link.near, link.far), (link.far, link.near)):
        port, own = facts.port(ref), own_rates(facts.port(ref), channel, ref)
        if port.rates is None or not port.rates.up_to or port.module is not None or own is None or own[0] <= agreed:
            continue
        return MIDDLE_RATE_ASSUMED.finding(
            port_place(ref),
            port_place(other),
            *(cable_place(cable.name) for cable in channel.cables),
            message=f"{both_rates_text(agreed)} is agreed only because {ref} is written `up to {rate_text(own[0])}`: "
            f"if it runs no rates in between, {_otherwise(link)}",
            remedy=f"Read the data sheet of {ref.device} and list the rates of {ref} one by one.",
            source=_middle_source(agreed),
            measured=Measure(agreed, "bit/s"),
        )
    return None


def _otherwise(link: Link) -> str:
    """What a link comes to where no rate in the middle is known."""
    plain = [rate for rate in link.rates or () if rate not in MIDDLE_RATES]
    return f"the link runs {both_rates_text(plain[0])}" if plain else "there is no link"


def _middle_source(rate_bit_per_s: int) -> Citation:
    """What defines a middle rate, apart from and after 10 Gb/s."""
    name = base_t(rate_bit_per_s)
    return PLAN if name is None else phys()[name].source


MIDDLE_RATE_ASSUMED = Rule(
    name="middle-rate-assumed",
    family="ports",
    severity="note",
    subjects=_middle_links,
    judge=_judge_middle,
    what="A link whose 2.5 or 5 Gb/s rests on an end that is only written `up to` something higher.",
    why="Many 10 Gb/s ports were made before those rates and run 10 and 1 Gb/s only, so that the link drops to 1 Gb/s.",
    todo="Look up the rates of that port and list them.",
    sources=lambda: dict.fromkeys(map(_middle_source, MIDDLE_RATES)),
)
