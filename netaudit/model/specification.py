"""Specification: what to look for in a switch that is not chosen yet."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.model.place import PortRef


class PortNeed(NamedTuple):
    """Ports of one kind that a switch has to have."""

    connector: str | None
    rate_bit_per_s: int | None
    """Rate that what is plugged into them runs [bit/s]; None is unknown."""
    quantity: int
    ports: tuple[PortRef, ...]
    lanes: int = 1
    """Lanes that each of them has to split into, for cables with several tails; 1: it need not."""
    lane_bit_per_s: int | None = None
    """Rate of each of these lanes [bit/s]; None is unknown, or where it need not split."""


class Specification(NamedTuple):
    """What to look for in a switch that is not chosen yet."""

    device: str
    needs: tuple[PortNeed, ...]
    packet_octets: int | None
    """Largest packet that it has to pass [octets]; None where no port says."""
    bonds: int
    """Bonds that it has to terminate."""
    vlans: tuple[int, ...]
    """VLANs that it has to tell apart."""
    spanning_tree: bool
    """Whether it has to run a spanning tree: it stands in a ring, or the plan says that it does."""
    watts: float | None
    """What the plan allows it to draw [W]; None where the plan says nothing."""
    notes: tuple[str, ...] = ()
    """What else to look for, in sentences."""
