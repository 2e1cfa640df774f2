"""Host links: a computer and its adapter or dock over a USB or Thunderbolt cable, which carries what the bus does."""

from __future__ import annotations

from netaudit.calculations.buses import usable_bit_per_s
from netaudit.model.plan import HostCable, Port

PHY = "host bus"
"""What a hop over a host cable shows where others show their physical layer."""


def bus_rate_bit_per_s(near: Port, far: Port, length_m: float | None) -> int | None:
    """What the buses of two host ports carry over a passive cable of a length [m], in bit/s.

    None where neither end gives its bus, or one that is given is in no table.
    """
    cable = None if length_m is None else HostCable(length_m)
    usable = [usable_bit_per_s(port.bus, cable) for port in (near, far) if port.bus is not None]
    rates = [None if one is None else one.rate_bit_per_s for one in usable]
    known = [rate for rate in rates if rate is not None]
    return min(known) if known and len(known) == len(rates) else None
