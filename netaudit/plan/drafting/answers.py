"""Answers: what somebody says of a room before a plan of it is drafted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

from netaudit.model.plan import Category, Pool, Subnet, System

StoragePort = Literal["rj45", "sfp+"]
"""Connectors that a drafted storage may have."""


class Seat(NamedTuple):
    """Somebody's desk."""

    name: str
    system: System | None
    """None is unknown."""
    wants_bit_per_s: int
    """Rate that it is meant to have [bit/s]."""
    room: str


class Run(NamedTuple):
    """The way from a room to the switch, or to the storage where there is none."""

    length_m: float | None
    """Length along the cable [m]; None is unknown."""
    wall: Category | None
    """Category of the cable in the wall; None where nothing is in it, and cords lie all the way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """Everything that a draft follows from."""

    name: str
    seats: tuple[Seat, ...]
    """In the order of their addresses and switch ports."""
    runs: Mapping[str, Run]
    """Room to its run, for the room of every seat."""
    switched: bool
    """Whether a switch joins the seats; else each has a cable of its own to the storage."""
    storage: str
    """Name of the storage."""
    storage_port: StoragePort
    storage_rate_bit_per_s: int
    """Highest rate of each storage port [bit/s]."""
    disks: Pool | None
    """None is unknown."""
    wifi: bool
    """Whether the seats keep Wi-Fi for the internet."""
    office_subnet: Subnet | None
    """Subnet of the Wi-Fi and everything else in the house; None is unknown."""
