"""What a network adapter gets out of the bus that it hangs on."""

from __future__ import annotations

from dataclasses import dataclass

from netaudit.model.plan import Bus
from netaudit.standards.buses import host_buses
from netaudit.standards.reading import Citation


@dataclass(frozen=True, slots=True)
class Usable:
    """What a bus carries one way."""

    rate_bit_per_s: int
    """Data, in the direction that carries less [bit/s]."""
    source: Citation


def usable_bit_per_s(bus: Bus) -> Usable | None:
    """What an adapter can count on; None if the bus is not known well enough, or in no table."""
    key = bus.rate_bit_per_s if bus.kind == "usb" else bus.generation
    lanes = bus.lanes if bus.kind == "pcie" else 1
    row = None if key is None else host_buses().get((bus.kind, key))
    if row is None or lanes is None:
        return None
    if row.practical_bit_per_s is not None:
        return Usable(row.practical_bit_per_s, row.source)
    if row.data_share is None:
        return None
    return Usable(round(row.signal_bit_per_s * lanes * row.data_share), row.source)
