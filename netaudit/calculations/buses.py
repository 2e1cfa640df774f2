"""What a network adapter gets out of the bus that it hangs on, over the cable between it and the computer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from netaudit.model.plan import Bus, HostCable
from netaudit.standards.buses import BusKey, HostBus, HostCableReach, host_buses, host_cables
from netaudit.standards.reading import Citation

TOLERANCE_M = 1e-9
"""Lengths that differ by less are equal [m]."""


@dataclass(frozen=True, slots=True)
class Usable:
    """What a bus carries one way."""

    rate_bit_per_s: int
    """Data, in the direction that carries less [bit/s]."""
    source: Citation


def usable_bit_per_s(bus: Bus, host_cable: HostCable | None = None) -> Usable | None:
    """What an adapter can count on over its host cable, which may lower the bus.

    None if the bus is not known well enough or in no table, or if the cable is longer than any limit.
    """
    row = _host_bus(bus)
    if row is None:
        return None
    if host_cable is None or not reaches_of(bus, active=host_cable.active):
        return _usable(row, bus.lanes)
    held = fastest_over(bus, host_cable)
    if held is None:
        return None
    usable = _usable(host_buses()[held.runs_like], bus.lanes)
    if usable is None or held.runs_like == held.bus or not usable.source.may_fail:
        return usable
    return Usable(usable.rate_bit_per_s, held.source)


def reaches_of(bus: Bus, *, active: bool) -> tuple[HostCableReach, ...]:
    """How far host cables of a kind carry a bus, the fastest first; nothing where no table has it."""
    key = _key(bus)
    return () if key is None else host_cables().get((key, active), ())


def reach_over(reaches: Sequence[HostCableReach], length_m: float) -> HostCableReach | None:
    """The fastest signal that a host cable of a length [m] holds; None if it is too long for any."""
    return next((reach for reach in reaches if length_m <= reach.reach_m + TOLERANCE_M), None)


def fastest_over(bus: Bus, host_cable: HostCable) -> HostCableReach | None:
    """The fastest signal of a bus that a host cable holds; None if it is too long for any, or nothing is published."""
    return reach_over(reaches_of(bus, active=host_cable.active), host_cable.length_m)


def whole_over(bus: Bus, host_cable: HostCable) -> HostCableReach | None:
    """The whole signal of a bus, with the length up to which a host cable of that kind holds it; None if unknown."""
    return next(iter(reaches_of(bus, active=host_cable.active)), None)


def lowering(bus: Bus, host_cable: HostCable) -> HostCableReach | None:
    """The signal that a host cable leaves of a bus; None where it leaves all of it, or nothing is published."""
    held = fastest_over(bus, host_cable)
    return None if held is None or held.runs_like == held.bus else held


def _key(bus: Bus) -> BusKey | None:
    own = bus.rate_bit_per_s if bus.kind == "usb" else bus.generation
    return None if own is None else (bus.kind, own)


def _host_bus(bus: Bus) -> HostBus | None:
    key = _key(bus)
    return None if key is None else host_buses().get(key)


def _usable(row: HostBus, lanes: int | None) -> Usable | None:
    lanes = lanes if row.kind == "pcie" else 1
    if lanes is None:
        return None
    if row.practical_bit_per_s is not None:
        return Usable(row.practical_bit_per_s, row.source)
    if row.data_share is None:
        return None
    return Usable(round(row.signal_bit_per_s * lanes * row.data_share), row.source)
