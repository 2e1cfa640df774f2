"""Devices of a plan: what every one has, and what a station, a storage, a switch and the internet have of their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, NamedTuple

from netaudit.model.ports import Bond, Port
from netaudit.model.vocabulary import PASSIVE_ROLES, Address, Layout, Role, StoragePurpose, System


class RackPosition(NamedTuple):
    """Where a device sits in a rack."""

    rack: str
    unit: int
    """Lowest unit it fills, counted from the bottom, from 1."""
    height: int = 1
    """Units it fills."""
    mounted: Literal["front", "rear"] = "front"
    half: Literal["left", "right"] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """Anything with ports. Roles with facts of their own are the classes below."""

    name: str
    role: Role
    room: str | None = None
    rack: RackPosition | None = None
    depth_m: float | None = None
    """Depth of the housing [m]."""
    watts: float | None = None
    """Power drawn in use [W]."""
    watts_max: float | None = None
    """Most power drawn [W]."""
    owned: bool | None = None
    ports: Mapping[str, Port] = field(default_factory=dict)
    """Port name to port, in file order, which is the port number."""
    bonds: Mapping[str, Bond] = field(default_factory=dict)
    bridges: tuple[str, ...] = ()
    """Ports between which frames are forwarded, where the role does not already do so."""

    @property
    def passive(self) -> bool:
        """Whether its ports only join cables."""
        return self.role in PASSIVE_ROLES


class Format(NamedTuple):
    """A picture or sound format, from which a data rate follows."""

    codec: str
    profile: str | None = None
    level: str | None = None
    raster: tuple[int, int] | None = None
    """Width and height [pixels]."""
    fps: Fraction | None = None
    """Frames each second, exact: 24000/1001, not 23.98."""
    bits: int | None = None
    """Depth of a sample [bits]."""
    sampling: str | None = None
    """Chroma sampling, such as 4:2:2."""
    ratio: Fraction | None = None
    """Compression, uncompressed to compressed."""
    channels: int | None = None
    """Sound channels."""
    sample_rate_hz: int | None = None
    """Sound samples each second [Hz]."""


class Stream(NamedTuple):
    """A row of what a seat plays or records at once."""

    what: str | None = None
    streams: int = 1
    rate_bit_per_s: int | None = None
    """Rate of one stream [bit/s]; None where a format or nothing is given."""
    format: Format | None = None
    pool: tuple[str, str] | None = None
    """Storage and pool that it is read from or written to."""
    when: str = "always"


@dataclass(frozen=True, slots=True, kw_only=True)
class Station(Device):
    """An edit seat."""

    system: System | None = None
    service_order: tuple[str, ...] = ()
    """Ports in the order the system prefers them."""
    metrics: Mapping[str, int] = field(default_factory=dict)
    """Route metric of a port where it was set by hand."""
    manager: str | None = None
    """What manages the network on Linux."""
    wants_bit_per_s: int | None = None
    """Rate that the seat is meant to have [bit/s]."""
    edits_from: tuple[str, ...] | None = None
    """Storages, or storage/port; None is every storage kept for editing."""
    plays: tuple[Stream, ...] = ()
    records: tuple[Stream, ...] = ()


class Pool(NamedTuple):
    """Disks that work as one."""

    drives: int | None = None
    """All drives of the pool, spares included."""
    size_bytes: int | None = None
    """Size of one drive [byte]."""
    read_bit_per_s: int | None = None
    """Reading rate of one drive [bit/s]."""
    write_bit_per_s: int | None = None
    """Writing rate of one drive [bit/s]."""
    measured_read_bit_per_s: int | None = None
    """Reading rate of the whole pool as measured [bit/s]."""
    measured_write_bit_per_s: int | None = None
    """Writing rate of the whole pool as measured [bit/s]."""
    layout: Layout | None = None
    groups: int = 1
    """Parity groups that the drives are divided into."""
    spares: int = 0
    """Drives that only wait."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Storage(Device):
    """A storage server, or a cluster of them behind one name."""

    purpose: StoragePurpose = "edit"
    pools: Mapping[str, Pool] = field(default_factory=dict)
    nodes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Node of a cluster to its ports."""
    virtual: Mapping[str, Address] = field(default_factory=dict)
    """Network to the address that moves between nodes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Switch(Device):
    """A switch."""

    spanning_tree: bool | None = None
    priority: int | None = None
    """Bridge priority, 0 to 61440 in steps of 4096."""
    mac: str | None = None
    """Bridge address, six lower-case pairs joined by colons."""
    fabric_bit_per_s: int | None = None
    """What it can forward in all [bit/s]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Internet(Device):
    """The way out."""

    up_bit_per_s: int | None = None
    """Rate towards the internet [bit/s]."""
    down_bit_per_s: int | None = None
    """Rate from the internet [bit/s]."""
