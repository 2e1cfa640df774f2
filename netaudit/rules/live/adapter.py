"""Live rules about the adapter and its wire: does the link hold, do frames arrive whole, is the bus wide enough."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from netaudit.citation import OBSERVED, Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.machine_state import AdapterBus, Interface
from netaudit.model.observation import Growth
from netaudit.model.situation import Situation
from netaudit.rules.live.buses import bus_of, most_bit_per_s, usable
from netaudit.rules.live.remedies import far_end_of
from netaudit.rules.live.roads import watched
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import interface_place
from netaudit.standards.buses import host_buses
from netaudit.units import both_rates_text


class Grown(NamedTuple):
    """An interface with what it did within the interval."""

    state: Interface
    growth: Growth
    seconds: float


def grown(situation: Situation) -> Iterator[Grown]:
    """The interfaces whose link matters, with what they did within the interval."""
    moved = situation.seen.moved
    for state in watched(situation) if moved is not None else ():
        if moved is not None and state.name in moved.interfaces:
            yield Grown(state, moved.interfaces[state.name], moved.seconds)


def _counted_links(situation: Situation) -> Iterator[Grown]:
    return (each for each in grown(situation) if each.growth.carrier_changes is not None)


def _judge_flapping(link: Grown, situation: Situation) -> Judgement:
    changes = link.growth.carrier_changes or 0
    if changes < 1:
        return None
    times = "once" if changes == 1 else f"{changes} times"
    return LINK_FLAPPING.finding(
        interface_place(link.state.name),
        message=f"the link of {situation.named(link.state.name)} came or went {times} within {link.seconds:.1f} s",
        remedy=f"Reseat both plugs, at {link.state.name} and at {far_end_of(situation, link.state.name)}, then replace "
        "the cable. If it goes on, feel whether the adapter or the module is hot, and try it without energy-saving "
        "Ethernet at both ends.",
        source=OBSERVED,
        measured=Measure(changes, "times"),
        limit=Measure(0, "times"),
    )


LINK_FLAPPING = Rule(
    name="link-flapping",
    family="live",
    severity="warn",
    subjects=_counted_links,
    judge=_judge_flapping,
    what="A link that came or went while it was watched.",
    why="Each time the port starts anew, the share hangs for seconds and playback stops: a plug, a hot adapter, a "
    "cable.",
    todo="Reseat both plugs, replace the cable, and let the adapter cool.",
    sources=observed,
)


_DAMAGED = ("crc", "fcs", "frame", "align", "symbol")
"""What the names of counters of damaged frames hold, whatever the system."""
_RECEIVED_IN_VAIN = ("rx_errors", "ierrs", "receivedpacketerrors", "input_errors", "errin")
"""Counters of everything that was received in vain, checksum faults of some drivers included."""


def _counted_errors(situation: Situation) -> Iterator[Grown]:
    return (each for each in grown(situation) if each.growth.counters.errors)


def _judge_errors(link: Grown, situation: Situation) -> Judgement:
    errors = link.growth.counters.errors
    damaged = {name: count for name, count in errors.items() if count > 0 and _is_damage(name)}
    vain = {name: count for name, count in errors.items() if count > 0 and name.casefold() in _RECEIVED_IN_VAIN}
    found = damaged or vain
    if not found:
        return None
    state = link.state
    doubt = "" if damaged else ", though some drivers count packets with a wrong checksum there too"
    return RECEIVE_ERRORS.finding(
        interface_place(state.name),
        message=f"{situation.named(state.name)} received damaged frames within {link.seconds:.1f} s: {_counts(found)}"
        f"{doubt}",
        remedy=f"Reseat both plugs, at {state.name} and at {far_end_of(situation, state.name)}, then replace the cable "
        "part by part; keep it away from mains cables and dimmers. Only counts that go on growing matter.",
        source=OBSERVED,
        measured=Measure(max(found.values()), "frames"),
        limit=Measure(0, "frames"),
    )


def _is_damage(name: str) -> bool:
    folded = name.casefold()
    return not folded.startswith("tx") and any(part in folded for part in _DAMAGED)


def _counts(found: Mapping[str, int]) -> str:
    return listed([f"{name} grew by {count}" for name, count in found.items()])


RECEIVE_ERRORS = Rule(
    name="receive-errors",
    family="live",
    severity="warn",
    subjects=_counted_errors,
    judge=_judge_errors,
    what="Counters of damaged frames that grow while they are watched; old counts and mere drops are left alone.",
    why="A damaged frame is thrown away and sent again: a healthy 10 Gb/s link shows none in a day.",
    todo="Reseat the plugs, then replace the cable part by part.",
    sources=observed,
)


def _on_a_bus(situation: Situation) -> Iterable[Interface]:
    return (
        state
        for state in watched(situation)
        if state.bus is not None and state.rate_bit_per_s and not state.made_up_rate
    )


def _judge_bus(state: Interface, situation: Situation) -> Judgement:
    bus, rate = state.bus, state.rate_bit_per_s or 0
    where = interface_place(state.name)
    if bus is None:
        return None
    carries, most = usable(bus), most_bit_per_s(bus)
    if most is None or (carries is None and most >= rate):
        return ADAPTER_BUS_BELOW_LINK.not_checked(
            where,
            reason=f"What {bus.text} behind {state.name} carries is in no table",
            decides=f"look it up in the computer's data sheet: {both_rates_text(rate)} is enough",
        )
    if most >= rate:
        return None
    best = f" The adapter itself could run {bus.best_text}." if bus.best_text not in (None, bus.text) else ""
    return ADAPTER_BUS_BELOW_LINK.finding(
        where,
        message=f"{situation.named(state.name)} has a link of {both_rates_text(rate)} but hangs on {bus.text}, which "
        f"carries {both_rates_text(most)} at the most{_beside_the_plan(state.name, bus, situation)}",
        remedy=_wider(bus.text, best),
        source=OBSERVED if carries is None else carries.source,
        measured=Measure(most, "bit/s"),
        limit=Measure(rate, "bit/s"),
    )


def _beside_the_plan(name: str, bus: AdapterBus, situation: Situation) -> str:
    """The bus that the plan means, as an addition, where another one was negotiated."""
    port = situation.expected_port(name)
    if port is None or port.bus is None or bus_of(port.bus) == bus_of(bus.text):
        return ""
    return f"; the plan says {port.bus}"


def _wider(text: str, best: str) -> str:
    bus = bus_of(text)
    if bus is not None and bus.kind == "pcie":
        return f"Move the card to a slot with more lanes or a newer generation.{best}"
    return (
        f"Plug the adapter straight into a faster port of the computer, with the cable that came with it and without a "
        f"hub; turn the plug over once, for some ports are fast only one way round.{best}"
    )


def _bus_sources() -> Iterator[Citation]:
    yield OBSERVED
    yield from dict.fromkeys(bus.source for bus in host_buses().values())


ADAPTER_BUS_BELOW_LINK = Rule(
    name="adapter-bus-below-link",
    family="live",
    severity="warn",
    subjects=_on_a_bus,
    judge=_judge_bus,
    what="An adapter whose bus, as it was negotiated, carries less than its link.",
    why="Switch and system both say 10 Gb/s while a USB plug that was put in the slow way round lets through 40 MB/s.",
    todo="Use a faster port or slot, the adapter's own cable, and no hub.",
    sources=_bus_sources,
)
