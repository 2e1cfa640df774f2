"""Rule about host buses: is the bus behind a port as fast as the link that is plugged into it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.calculations.buses import usable_bit_per_s
from netaudit.citation import PLAN, Citation
from netaudit.listing import either
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import PortRef, cable_place, port_place
from netaudit.model.plan import Bus, Port
from netaudit.network.links import Link
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import missing_fact
from netaudit.rules.hosts import bus_text, wider_bus
from netaudit.rules.rule import Rule
from netaudit.standards.buses import host_buses, host_cables
from netaudit.units import both_rates_text

WIDER_LANES = (2, 4, 8, 16)
"""Widths of PCI Express beyond the narrowest [lanes]."""


class Behind(NamedTuple):
    """A port with a bus, and a wired link in it."""

    ref: PortRef
    port: Port
    bus: Bus
    link: Link
    needed_bit_per_s: tuple[int, ...]
    """What the link runs, or may come to run, all lanes of a breakout together [bit/s]."""


def _behind(facts: Facts) -> Iterable[Behind]:
    """Every port with a bus whose wired link comes up, or may; of a breakout its first lane stands for all."""
    seen: set[PortRef] = set()
    for link in facts.topology.links:
        rates = link.rates[:1] if link.rates else link.possible_rates
        if link.channel is None or not link.runs or not rates:
            continue
        for ref in (link.near, link.far):
            port = facts.port(ref)
            if port.bus is not None and ref not in seen:
                seen.add(ref)
                lanes = link.channel.lanes if ref == link.channel.trunk else 1
                yield Behind(ref, port, port.bus, link, tuple(rate * lanes for rate in rates))


def _judge(behind: Behind, facts: Facts) -> Judgement:
    usable = usable_bit_per_s(behind.bus, behind.port.host_cable)
    most = behind.bus.rate_bit_per_s if usable is None else usable.rate_bit_per_s
    if most is not None and most < min(behind.needed_bit_per_s):
        return _below(behind, most, PLAN if usable is None else usable.source)
    if usable is None:
        return BUS_BELOW_LINK.not_checked(
            port_place(behind.ref),
            reason=f"What {bus_text(behind.port)} behind {behind.ref} carries is in no table",
            decides="read it in the computer's data sheet, or measure there",
        )
    if usable.rate_bit_per_s >= max(behind.needed_bit_per_s):
        return None
    missing = missing_fact(behind.link, facts.plan)
    return BUS_BELOW_LINK.not_checked(missing.where, reason=missing.reason, decides=missing.decides)


def _below(behind: Behind, most_bit_per_s: int, source: Citation) -> Judgement:
    ref, link = behind.ref, behind.link
    needed = min(behind.needed_bit_per_s)
    return BUS_BELOW_LINK.finding(
        port_place(ref),
        port_place(link.far if ref == link.near else link.near),
        *(cable_place(name) for name in link.cables),
        message=f"{bus_text(behind.port)} behind {ref} carries {both_rates_text(most_bit_per_s)} at the most, "
        f"and the link there runs {both_rates_text(needed)}",
        remedy=_remedy(behind, needed),
        source=source,
        measured=Measure(most_bit_per_s, "bit/s"),
        limit=Measure(needed, "bit/s"),
    )


def _remedy(behind: Behind, needed_bit_per_s: int) -> str:
    """A better host cable where that is all it takes, or else the buses that are just enough."""
    step = wider_bus(behind.ref, behind.port, needed_bit_per_s)
    if _enough(behind.bus, needed_bit_per_s):
        return step
    kinds = ("pcie",) if behind.bus.kind == "pcie" else ("usb", "thunderbolt")
    least = (_least(kind, behind.bus, needed_bit_per_s) for kind in kinds)
    enough = [bus for bus in least if bus is not None]
    return f"{step} {either(enough)} is enough." if enough else step


def _enough(bus: Bus, needed_bit_per_s: int) -> bool:
    usable = usable_bit_per_s(bus)
    return usable is not None and usable.source.may_fail and usable.rate_bit_per_s >= needed_bit_per_s


def _least(kind: str, instead_of: Bus, needed_bit_per_s: int) -> Bus | None:
    """The first bus of a kind that is enough; of slots the narrowest of the same generation, or of a later one."""
    buses = (bus for own, key in host_buses() if own == kind for bus in _buses(own, key, instead_of))
    return next((bus for bus in buses if _enough(bus, needed_bit_per_s)), None)


def _buses(kind: str, key: int, instead_of: Bus) -> Iterator[Bus]:
    if kind == "usb":
        yield Bus("usb", rate_bit_per_s=key)
    elif kind == "thunderbolt":
        yield Bus("thunderbolt", key)
    elif instead_of.generation is not None and key >= instead_of.generation:
        yield from (Bus("pcie", key, lanes) for lanes in WIDER_LANES)


def _sources() -> Iterable[Citation]:
    every = (
        *(bus.source for bus in host_buses().values()),
        *(one.source for each in host_cables().values() for one in each),
    )
    return dict.fromkeys((PLAN, *every))


BUS_BELOW_LINK = Rule(
    name="bus-below-link",
    family="ports",
    severity="warn",
    subjects=_behind,
    judge=_judge,
    what="A port whose bus to the computer carries less than the link that is plugged into it.",
    why="The lamps and the system say 10 Gb/s, and copies stop where the bus does.",
    todo="Plug the adapter into a faster port or a wider slot, without a dock or a hub between.",
    sources=_sources,
)
