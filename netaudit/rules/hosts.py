"""Hosts: how rules speak of the bus behind a port, over the cable between the computer and its adapter."""

from __future__ import annotations

from netaudit.calculations.buses import fastest_over, lowering, usable_bit_per_s, whole_over
from netaudit.model.place import PortRef
from netaudit.model.plan import Port
from netaudit.units import both_rates_text, length_text


def bus_text(port: Port) -> str:
    """The bus behind a port, with its host cable where that takes something away."""
    cable = port.host_cable
    if port.bus is None or cable is None or whole_over(port.bus, cable) is None:
        return str(port.bus)
    length = length_text(cable.length_m)
    if fastest_over(port.bus, cable) is None:
        return f"{port.bus} over {length} of host cable"
    return f"{port.bus}, lowered by {length} of host cable" if lowering(port.bus, cable) else str(port.bus)


def wider_bus(ref: PortRef, port: Port, wants_bit_per_s: int, enough_bit_per_s: float | None = None) -> str:
    """The step that brings a bus to a rate, or to what is enough of it [bit/s]: a shorter host cable where that does.

    All of the rate is needed unless it is said how much is enough.
    """
    shorter = _shorter_cable(port, wants_bit_per_s if enough_bit_per_s is None else enough_bit_per_s)
    if shorter is None:
        return f"Give {ref} a bus that carries {both_rates_text(wants_bit_per_s)}."
    return f"Use a host cable of at most {length_text(shorter)} at {ref}, which leaves {port.bus} whole."


def _shorter_cable(port: Port, enough_bit_per_s: float) -> float | None:
    """The length [m] up to which a host cable leaves a bus whole, where that brings it to a rate [bit/s]."""
    bus, cable = port.bus, port.host_cable
    if bus is None or cable is None or fastest_over(bus, cable) == whole_over(bus, cable):
        return None
    whole, reach = usable_bit_per_s(bus), whole_over(bus, cable)
    return None if whole is None or reach is None or whole.rate_bit_per_s < enough_bit_per_s else reach.reach_m
