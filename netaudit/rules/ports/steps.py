"""Rule about steps in rate: where films leave a device over a slower link than they come in by."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from netaudit.citation import Citation
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


class Step(NamedTuple):
    """A port by which films leave towards a seat, and the fastest one by which they come in."""

    leaving: PortRef
    out_bit_per_s: int
    """Agreed rate of the link there [bit/s]."""
    arriving: PortRef
    in_bit_per_s: int
    """Agreed rate of the link there [bit/s]."""


def _steps(facts: Facts) -> Iterable[Step]:
    """Every port by which a planned road leaves a forwarding device towards its seat; rates that are known only."""
    steps: dict[PortRef, Step] = {}
    for path in facts.planned:
        for outward, inward in pairwise(path.hops):
            out_rate, in_rate = outward.agreed_bit_per_s, inward.agreed_bit_per_s
            if out_rate is None or in_rate is None:
                continue
            known = steps.get(outward.to_port)
            if known is None or in_rate > known.in_bit_per_s:
                steps[outward.to_port] = Step(outward.to_port, out_rate, inward.from_port, in_rate)
    return steps.values()


def _judge(step: Step, facts: Facts) -> Judgement:
    if step.in_bit_per_s <= step.out_bit_per_s:
        return None
    into, out = both_rates_text(step.in_bit_per_s), both_rates_text(step.out_bit_per_s)
    return SPEED_STEP_DOWN.finding(
        port_place(step.leaving),
        port_place(step.arriving),
        message=f"What comes in at {step.arriving} with {into} leaves at {step.leaving} with {out}: "
        f"{step.leaving.device} has to hold each burst or drop it",
        remedy=f"Give the link at {step.leaving} {into} as well, or copy a large file both ways: "
        "where one way is far slower than the other, this is the place.",
        source=SHALLOW_BUFFERS,
        measured=Measure(step.in_bit_per_s, "bit/s"),
        limit=Measure(step.out_bit_per_s, "bit/s"),
    )


SPEED_STEP_DOWN = Rule(
    name="speed-step-down",
    family="ports",
    severity="note",
    subjects=_steps,
    judge=_judge,
    what="A device on the road to a seat that films enter over a faster link than the one they leave by.",
    why="Small switches hold little. When a burst does not fit, part of it is lost and sent again, "
    "and reading crawls while writing runs at full rate.",
    todo="Keep the rate the same all the way to seats that play in real time, or measure both ways.",
    sources=lambda: (SHALLOW_BUFFERS,),
)
