"""Grown cables: where the length that is sold changes what a link is promised."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from netaudit.listing import listed
from netaudit.model.plan import Cable, Plan
from netaudit.network.links import Link, Promised, wired_link
from netaudit.network.topology import Topology
from netaudit.units import EQUAL_WITHIN_M, both_rates_text, length_text, sold_length_text


def grown(plan: Plan, topology: Topology, sold: Mapping[str, float]) -> tuple[str, ...]:
    """A sentence for each link that is promised something else over its cables as they are sold.

    `sold` is the length in which a cable is bought [m], by its name; the topology is that of the plan.
    """
    sentences = (_changed(plan, link, sold) for link in topology.links)
    return tuple(sentence for sentence in sentences if sentence is not None)


def _changed(plan: Plan, link: Link, sold: Mapping[str, float]) -> str | None:
    """What is to be told of a link; None where its cables do not grow, or where that changes nothing."""
    if link.channel is None:
        return None
    longer = {cable.name: text for cable in link.channel.cables if (text := _growth(cable, sold)) is not None}
    if not longer:
        return None
    bought = tuple(
        cable._replace(length_m=sold[cable.name]) if cable.name in longer else cable for cable in link.channel.cables
    )
    promised = wired_link(plan, replace(link.channel, cables=bought)).promised
    if promised == link.promised:
        return None
    its, them = ("its", "it") if len(longer) == 1 else ("their", "them")
    return (
        f"{listed(longer.values())}: {its} {link.place} is then promised {_promise_text(promised)} "
        f"instead of {_promise_text(link.promised)}; have {them} made to length."
    )


def _growth(cable: Cable, sold: Mapping[str, float]) -> str | None:
    """How a cable grows, in words; None where it does not, or where its length is not known."""
    length_m = sold.get(cable.name)
    if length_m is None or cable.length_m is None or length_m - cable.length_m <= EQUAL_WITHIN_M:
        return None
    return f"{cable.name} bought at {sold_length_text(length_m)} instead of {length_text(cable.length_m)}"


def _promise_text(promised: Promised) -> str:
    least, most = promised.least_bit_per_s, promised.most_bit_per_s
    if most is None:
        return "a rate that is still open"
    if most == 0:
        return "no rate"
    if least == most:
        return both_rates_text(most)
    return f"at most {both_rates_text(most)}" if least == 0 else f"{both_rates_text(least)} to {both_rates_text(most)}"
