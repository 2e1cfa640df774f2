"""Rule about steps in rate: where films leave a device over a slower link than they come in by."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.listing import either, listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import PortRef, port_place
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.units import both_rates_text

SHALLOW_BUFFERS = Citation(
    "J. Warner, Packet buffers, people.ucsc.edu/~warner/Bufs/summary",
    "a switch that slows a stream down has to hold the burst, or drops it",
    "secondary",
)


class Outlet(NamedTuple):
    """A port by which films leave a device towards a seat."""

    port: PortRef
    rate_bit_per_s: int
    """Agreed rate of the link there [bit/s]."""


class Arrival(NamedTuple):
    """A port by which films come into a device, with those for which it is the fastest they come in by."""

    port: PortRef
    rate_bit_per_s: int
    """Agreed rate of the link there [bit/s]."""
    outlets: tuple[Outlet, ...]


def _arrivals(facts: Facts) -> Iterable[Arrival]:
    """Every port by which films come into a device that passes them on by cable; rates that are known only."""
    fastest: dict[Outlet, Outlet] = {}
    for path in facts.planned:
        for outward, inward in pairwise(path.hops):
            out_rate, in_rate = outward.agreed_bit_per_s, inward.agreed_bit_per_s
            if out_rate is None or in_rate is None or outward.phy == "radio":
                continue
            outlet = Outlet(outward.to_port, out_rate)
            if outlet not in fastest or in_rate > fastest[outlet].rate_bit_per_s:
                fastest[outlet] = Outlet(inward.from_port, in_rate)
    fed: dict[Outlet, list[Outlet]] = {}
    for outlet, arriving in fastest.items():
        fed.setdefault(arriving, []).append(outlet)
    return [Arrival(port, rate, tuple(outlets)) for (port, rate), outlets in fed.items()]


def _judge(arrival: Arrival, facts: Facts) -> Judgement:
    slower = [outlet for outlet in arrival.outlets if outlet.rate_bit_per_s < arrival.rate_bit_per_s]
    if not slower:
        return None
    slowest, *others = sorted(slower, key=lambda outlet: outlet.rate_bit_per_s)
    ports = [slowest.port, *(outlet.port for outlet in others)]
    into, out = both_rates_text(arrival.rate_bit_per_s), both_rates_text(slowest.rate_bit_per_s)
    least = "as little as " if any(other.rate_bit_per_s > slowest.rate_bit_per_s for other in others) else ""
    return SPEED_STEP_DOWN.finding(
        port_place(slowest.port),
        port_place(arrival.port),
        *(port_place(outlet.port) for outlet in others),
        message=f"What comes in at {arrival.port} with {into} leaves at {listed(ports)} with {least}{out}: "
        f"{arrival.port.device} has to hold each burst or drop it",
        remedy=f"Copy a large file both ways over {either(ports)}: where reading is far slower than writing, "
        "a faster link there is the cure; where both run alike, leave it as it is.",
        source=SHALLOW_BUFFERS,
        measured=Measure(arrival.rate_bit_per_s, "bit/s"),
        limit=Measure(slowest.rate_bit_per_s, "bit/s"),
    )


SPEED_STEP_DOWN = Rule(
    name="speed-step-down",
    family="ports",
    severity="note",
    subjects=_arrivals,
    judge=_judge,
    what="A device on the road to a seat that films enter over a faster link than the one they leave by.",
    why="Small switches hold little. When a burst does not fit, part of it is lost and sent again, "
    "and reading crawls while writing runs at full rate.",
    todo="Copy a large file both ways; where reading is far slower, give the link of that seat a faster rate.",
    sources=lambda: (SHALLOW_BUFFERS,),
)
