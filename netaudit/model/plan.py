"""A plan: the room as somebody wants to build it, in SI units and frozen.

None always means that the plan does not say. It is never zero, never a default.
Small values are named tuples, which are made and compared fast; those that build on each other are dataclasses.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import NamedTuple

from netaudit.model.devices import Device, Format, Internet, Pool, RackPosition, Station, Storage, Stream, Switch
from netaudit.model.place import Lines, PortRef
from netaudit.model.ports import Bond, Bus, HostCable, Port, Rates
from netaudit.model.vocabulary import (
    COPPER_CATEGORIES,
    FIBRE_GRADES,
    HOST_CABLE_KINDS,
    PASSIVE_ROLES,
    TWINAX_KINDS,
    Address,
    BusKind,
    Category,
    Connector,
    Layout,
    Material,
    NetworkPurpose,
    Regime,
    Role,
    StoragePurpose,
    Subnet,
    System,
    TreeCosts,
)

__all__ = [
    "COPPER_CATEGORIES",
    "FIBRE_GRADES",
    "HOST_CABLE_KINDS",
    "PASSIVE_ROLES",
    "TWINAX_KINDS",
    "Address",
    "Bond",
    "Bus",
    "BusKind",
    "Cable",
    "Category",
    "Connector",
    "Copy",
    "Device",
    "Format",
    "HostCable",
    "Internet",
    "Layout",
    "Material",
    "Network",
    "NetworkPurpose",
    "Plan",
    "Pool",
    "Port",
    "Price",
    "Rack",
    "RackPosition",
    "Rates",
    "Regime",
    "Role",
    "Room",
    "Route",
    "Station",
    "StockItem",
    "Storage",
    "StoragePurpose",
    "Stream",
    "Subnet",
    "Switch",
    "System",
    "TreeCosts",
]


class Network(NamedTuple):
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


class Room(NamedTuple):
    """A room, and the building whose earth it shares."""

    name: str
    building: str | None = None


class Rack(NamedTuple):
    """A rack of standard units."""

    name: str
    units: int | None = None
    """Height [rack units of 44.45 mm]."""
    depth_m: float | None = None
    """Usable depth [m]."""
    room: str | None = None


class Cable(NamedTuple):
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
    fibres: int | None = None
    """Fibres in use; None: two."""
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

    def __str__(self) -> str:
        return self.name

    @property
    def ends(self) -> tuple[PortRef, ...]:
        """Every port it touches, the near one first."""
        return (self.from_port, *self.to_ports)


class Route(NamedTuple):
    """A named leg along which cables run."""

    name: str
    length_m: float
    """Length [m]."""


class Copy(NamedTuple):
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


class Price(NamedTuple):
    """A price in the currency of the plan."""

    amount: Decimal
    currency: str


class StockItem(NamedTuple):
    """Something that can be bought, in the size it is sold in."""

    what: str
    """What it is called, as the bill calls it: a cord, a box, a module and its physical layer."""
    category: Category | None = None
    screened: bool | None = None
    cord_awg: int | None = None
    """Gauge of a stranded cord [AWG]."""
    length_m: float | None = None
    """Length it is sold in [m]."""
    price: Price | None = None
    """Price of one."""
    ends: str | None = None
    """What its two ends are, such as `lc - lc`, as the bill says it."""


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
