"""Host buses: what a bus between a computer and its adapter carries one way, and over how long a cable."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.reading import Row, table


class HostBus(NamedTuple):
    """What a bus between a computer and its adapter carries one way."""

    kind: str
    """pcie, thunderbolt, usb."""
    generation: int | None
    """None for USB, which goes by its signalling rate."""
    signal_bit_per_s: int
    """Signalling rate [bit/s]; of one lane for PCI Express."""
    data_share: Fraction | None
    """Share of the signal that is left for data after line code and packet headers; None where practice decides."""
    practical_bit_per_s: int | None
    """What adapters get in practice [bit/s]; None where the arithmetic decides."""
    source: Citation


BusKey = tuple[str, int]
"""A host bus by kind and generation; USB by its signalling rate [bit/s]."""


class HostCableReach(NamedTuple):
    """Up to which length a cable between a computer and its adapter holds a signalling rate."""

    bus: BusKey
    """The bus of the computer."""
    active: bool
    """Whether the cable has electronics of its own."""
    reach_m: float
    """Longest [m]."""
    signal_bit_per_s: int
    """Signalling rate that it holds [bit/s]."""
    runs_like: BusKey
    """The bus that carries as much as this one does over such a cable; its own where nothing is lost."""
    source: Citation
    """What tells the signal over such a length."""
    length_source: Citation
    """What makes it the longest; a length that is only informative may not fail a plan."""


@cache
def host_buses() -> Mapping[BusKey, HostBus]:
    """Host buses by kind and generation; USB by its signalling rate [bit/s]."""
    buses = (
        HostBus(
            kind=row.text("kind"),
            generation=row.optional_whole("generation"),
            signal_bit_per_s=row.whole("signal_bit_per_s"),
            data_share=_data_share(row),
            practical_bit_per_s=row.optional_whole("practical_bit_per_s"),
            source=row.citation(),
        )
        for row in table("host_buses.csv")
    )
    return {(bus.kind, bus.signal_bit_per_s if bus.generation is None else bus.generation): bus for bus in buses}


def _data_share(row: Row) -> Fraction | None:
    if row.optional_text("data_bits") is None:
        return None
    return Fraction(row.whole("data_bits"), row.whole("line_bits")) * Fraction(
        row.whole("payload_octets"), row.whole("packet_octets")
    )


@cache
def host_cables() -> Mapping[tuple[BusKey, bool], tuple[HostCableReach, ...]]:
    """Lengths of cables by bus and whether they are active, the shortest and fastest first."""
    reaches: dict[tuple[BusKey, bool], tuple[HostCableReach, ...]] = {}
    for row in table("host_cables.csv"):
        signal_bit_per_s = row.whole("signal_bit_per_s")
        reach = HostCableReach(
            bus=(row.text("kind"), row.optional_whole("generation") or row.whole("bus_bit_per_s")),
            active=row.text("active") == "yes",
            reach_m=row.number("reach_m"),
            signal_bit_per_s=signal_bit_per_s,
            runs_like=(row.text("like_kind"), row.optional_whole("like_generation") or signal_bit_per_s),
            source=row.citation(),
            length_source=row.citation("length_source"),
        )
        key = (reach.bus, reach.active)
        reaches[key] = (*reaches.get(key, ()), reach)
    return reaches
