"""A plan: the room as somebody wants to build it, in SI units and frozen.

None always means that the plan does not say. It is never zero, never a default.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network
from typing import Literal

from netaudit.model.place import Lines, PortRef

Address = IPv4Address | IPv6Address
Subnet = IPv4Network | IPv6Network
Regime = Literal["iso", "tia"]
TreeCosts = Literal["long", "short"]
Role = Literal[
    "station", "storage", "switch", "router", "access-point", "panel", "outlet", "adapter", "internet", "ups", "other"
]
System = Literal["macos", "windows", "linux"]
Connector = Literal[
    "rj45", "sfp", "sfp+", "sfp28", "qsfp+", "qsfp28", "lc", "sc", "mpo", "radio", "usb-a", "usb-c", "thunderbolt"
]
Category = Literal[
    "3", "5", "5e", "6", "6A", "7", "7A", "8.1", "8.2",
    "OM1", "OM2", "OM3", "OM4", "OM5", "OS1", "OS1a", "OS2",
    "twinax", "active-twinax", "active-optical", "thunderbolt", "usb", "unknown",
]  # fmt: skip
Material = Literal["copper", "aluminium-clad"]
NetworkPurpose = Literal["storage", "general"]
StoragePurpose = Literal["edit", "archive", "backup"]
Layout = Literal["stripe", "mirror", "single-parity", "double-parity", "triple-parity"]
BusKind = Literal["pcie", "thunderbolt", "usb"]

COPPER_CATEGORIES: tuple[str, ...] = ("3", "5", "5e", "6", "6A", "7", "7A", "8.1", "8.2")
"""Categories of twisted pair, the least first."""
FIBRE_GRADES: tuple[str, ...] = ("OM1", "OM2", "OM3", "OM4", "OM5", "OS1", "OS1a", "OS2")
TWINAX_KINDS: tuple[str, ...] = ("twinax", "active-twinax", "active-optical")
HOST_CABLE_KINDS: tuple[str, ...] = ("thunderbolt", "usb")
PASSIVE_ROLES: frozenset[str] = frozenset({"panel", "outlet"})
"""Roles whose ports only join two cables."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """A network as planned: one or more subnets on one broadcast domain."""

    name: str
    subnets: tuple[Subnet, ...] = ()
    vlan: int | None = None
    """Identifier in the VLAN tag, 1 to 4094."""
    mtu: int | None = None
    """Planned largest packet [octets]."""
    gateway: Address | None = None
    leases: tuple[Address, Address] | None = None
    """First and last address that are handed out."""
    purpose: NetworkPurpose | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A room, and the building whose earth it shares."""

    name: str
    building: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """A rack of standard units."""

    name: str
    units: int | None = None
    """Height [rack units of 44.45 mm]."""
    depth_m: float | None = None
    """Usable depth [m]."""
    room: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RackPosition:
    """Where a device sits in a rack."""

    rack: str
    unit: int
    """Lowest unit it fills, counted from the bottom, from 1."""
    height: int = 1
    """Units it fills."""
    mounted: Literal["front", "rear"] = "front"
    half: Literal["left", "right"] | None = None


@dataclass(frozen=True, slots=True)
class Rates:
    """The rates that a port or a made-up cable can run."""

    bit_per_s: tuple[int, ...]
    """Each rate once, the highest first [bit/s]."""
    up_to: bool = False
    """Whether the plan said `up to`, so that the lower ones are presumed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bus:
    """The host bus behind a port."""

    kind: BusKind
    generation: int | None = None
    """Generation of PCI Express or Thunderbolt."""
    lanes: int | None = None
    """Lanes of PCI Express."""
    rate_bit_per_s: int | None = None
    """Signalling rate of USB [bit/s]."""
    via: str | None = None
    """Name of the dock or hub whose bus several ports share."""

    def __str__(self) -> str:
        if self.kind == "pcie":
            return f"PCI Express {self.generation} x{self.lanes}"
        if self.kind == "thunderbolt":
            return f"Thunderbolt {self.generation}"
        return "USB" if self.rate_bit_per_s is None else f"USB {self.rate_bit_per_s / 1e9:g}G"


@dataclass(frozen=True, slots=True, kw_only=True)
class HostCable:
    """The cable between a computer and its adapter."""

    length_m: float
    """Length [m]."""
    active: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Port:
    """A port without its name: the ports of a range share one value."""

    connector: Connector | None = None
    rates: Rates | None = None
    module: str | None = None
    """Designation of the physical layer in the module, such as 10GBASE-SR."""
    bus: Bus | None = None
    host_cable: HostCable | None = None
    untagged: str | None = None
    """Network whose frames travel without a tag."""
    tagged: tuple[str, ...] = ()
    """Networks whose frames travel tagged."""
    addresses: tuple[Address, ...] = ()
    leased: bool = False
    """Whether the address is handed out by the network."""
    mtu: int | None = None
    """Largest packet it is set to [octets]; None is unknown, not 1500."""
    mac: str | None = None
    """Hardware address, six lower-case pairs joined by colons."""
    interface: str | None = None
    """The system's own name for it."""
    serves: bool = True
    """Whether a storage serves files on it."""
    purpose: Literal["management"] | None = None
    category: Category | None = None
    """Category of a passive port; None matches its cables."""
    screened: bool | None = None
    """Screen of a passive port; None matches its cables."""
    owned: bool | None = None

    @property
    def carries_any(self) -> bool:
        """Whether the plan names no network for it."""
        return self.untagged is None and not self.tagged


@dataclass(frozen=True, slots=True, kw_only=True)
class Bond:
    """Ports that work as one; one conversation uses one member."""

    ports: tuple[str, ...]
    untagged: str | None = None
    addresses: tuple[Address, ...] = ()
    leased: bool = False
    mtu: int | None = None
    """Largest packet it is set to [octets]."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Stream:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """One cable or cord between two ports; a breakout has several far ends."""

    name: str
    from_port: PortRef
    to_ports: tuple[PortRef, ...]
    category: Category = "unknown"
    rates: Rates | None = None
    """Rates of the ends of a made-up cable."""
    length_m: float | None = None
    """Length [m]."""
    cord_awg: int | None = None
    """Gauge of a stranded cord [AWG]."""
    screened: bool = False
    material: Material = "copper"
    fibres: int = 2
    """Fibres in use."""
    splices: int = 0
    loss_db: float | None = None
    """Measured loss [dB]."""
    ambient_c: float | None = None
    """Air along this cable [°C]; None is the plan's."""
    installed: bool = False
    owned: bool | None = None
    via: tuple[str, ...] = ()
    """Routes it runs along."""
    label: str | None = None
    note: str | None = None

    @property
    def ends(self) -> tuple[PortRef, ...]:
        """Every port it touches, the near one first."""
        return (self.from_port, *self.to_ports)


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A named leg along which cables run."""

    name: str
    length_m: float
    """Length [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """A copy that has to happen beside the editing."""

    what: str
    from_device: str
    to_device: str
    size_bytes: int | None = None
    """What is copied [byte]."""
    within_s: float | None = None
    """Time allowed [s]."""
    at_minute: int | None = None
    """When it starts [minutes after midnight]."""
    weight: float = 1.0
    """Its share against other traffic, one connection being 1."""
    source_rate_bit_per_s: int | None = None
    """What its source can give [bit/s]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """A price in the currency of the plan."""

    amount: Decimal
    currency: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StockItem:
    """Something that can be bought, in the size it is sold in."""

    what: str
    category: Category | None = None
    length_m: float | None = None
    """Length it is sold in [m]."""
    price: Price | None = None
    """Price of one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A whole plan, checked for shape and references but not yet judged."""

    file: str = field(compare=False)
    """The file as the caller named it."""
    name: str | None = None
    about: str | None = None
    headroom: float = 0.3
    """Share of goodput kept free [0 to 1]."""
    regime: Regime = "iso"
    """Whose cabling rules judge copper and fibre."""
    ambient_c: float = 20.0
    """Air along the cable routes [°C]."""
    tree_costs: TreeCosts = "long"
    networks: Mapping[str, Network] = field(default_factory=dict)
    racks: Mapping[str, Rack] = field(default_factory=dict)
    rooms: Mapping[str, Room] = field(default_factory=dict)
    devices: Mapping[str, Device] = field(default_factory=dict)
    cables: Mapping[str, Cable] = field(default_factory=dict)
    routes: Mapping[str, Route] = field(default_factory=dict)
    copies: tuple[Copy, ...] = ()
    stock: tuple[StockItem, ...] = ()
    assumed: tuple[str, ...] = field(default=(), compare=False)
    """What was taken for granted because the file does not say it."""
    lines: Lines = field(default_factory=dict, compare=False, repr=False)
    """Where each place is written; never part of the plan's value."""
