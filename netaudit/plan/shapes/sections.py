"""Shapes of a plan: the keys of everything but devices, and of the plan as a whole."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar

from netaudit.model import plan as model
from netaudit.plan.shapes import kinds
from netaudit.plan.shapes.devices import (
    InternetShape,
    OtherShape,
    PassiveShape,
    StationShape,
    StorageShape,
    SwitchShape,
)
from netaudit.plan.shapes.forms import REQUIRED, Shape, key

FORMAT = "1"
"""The plan format that is read and written."""

AnyDeviceShape = StationShape | StorageShape | SwitchShape | InternetShape | PassiveShape | OtherShape


class NetworkShape(Shape):
    """A network."""

    noun: ClassVar[str] = "a network"
    value = model.Network

    subnets: kinds.Subnets = key("subnet", "its subnet, or a list of them, of either kind of address", ())
    vlan: kinds.Vlan | None = key("vlan", "identifier in the VLAN tag")
    mtu: kinds.Mtu | None = key("mtu", "planned largest packet [octets]")
    gateway: kinds.Address | None = key("gateway", "address of the router that leads out of it")
    leases: kinds.Leases | None = key("leases", "first and last address that are handed out")
    purpose: kinds.Purpose | None = key("purpose", "whether it is meant for storage traffic", unsaid="general")


class RackShape(Shape):
    """A rack."""

    noun: ClassVar[str] = "a rack"
    value = model.Rack

    units: kinds.RackUnits | None = key("units", "its height [rack units]")
    depth_m: kinds.Length | None = key("depth", "its usable depth")
    room: kinds.Name | None = key("room", "the room it stands in")


class RoomShape(Shape):
    """A room."""

    noun: ClassVar[str] = "a room"
    value = model.Room

    building: kinds.Name | None = key("building", "its building; rooms in different buildings have different earths")


class CableShape(Shape):
    """A cable."""

    noun: ClassVar[str] = "a cable"
    value = model.Cable

    from_port: kinds.Port = key("from", "the port at its near end", REQUIRED)
    to_ports: kinds.Ports = key("to", "the port at its far end; a list for a breakout", REQUIRED)
    category: kinds.Category = key("category", "category of copper or fibre, or the kind of a made-up cable", "unknown")
    rates: kinds.Rates | None = key("rates", "rates of the ends of a made-up cable")
    length_m: kinds.Length | None = key("length", "its length")
    cord_awg: kinds.Gauge | None = key("cord", "gauge of a stranded cord")
    screened: kinds.Flag = key("screened", "whether it has a screen", default=False)
    material: kinds.Material = key("material", "what its conductors are made of", "copper")
    fibres: kinds.Fibres | None = key("fibres", "fibres in use", unsaid="2")
    splices: kinds.Splices = key("splices", "splices along it", 0)
    loss_db: kinds.Loss | None = key("loss", "its loss as measured")
    ambient_c: kinds.Temperature | None = key("ambient", "air along this cable", unsaid="the plan's")
    installed: kinds.Flag = key("installed", "whether it is in the wall already", default=False)
    owned: kinds.Flag | None = key("owned", "whether you have it already")
    via: tuple[kinds.Name, ...] = key("via", "routes that it runs along", ())
    label: kinds.FreeText | None = key("label", "what is printed on it, or shall be")
    note: kinds.FreeText | None = key("note", "anything worth remembering")


class CopyShape(Shape):
    """A copy."""

    noun: ClassVar[str] = "a copy"
    value = model.Copy

    what: kinds.Name = key("what", "what is copied", REQUIRED)
    from_device: kinds.DeviceName = key("from", "the device it comes from", REQUIRED)
    to_device: kinds.DeviceName = key("to", "the device it goes to", REQUIRED)
    size_bytes: kinds.Size | None = key("size", "how much is copied")
    within_s: kinds.Time | None = key("within", "time that it may take")
    at_minute: kinds.TimeOfDay | None = key("at", "when it starts")
    weight: kinds.Weight = key("weight", "its share against other traffic, one connection being 1", 1.0)
    source_rate_bit_per_s: kinds.DiskRate | None = key("source_rate", "what its source can give")


class StockShape(Shape):
    """Something to buy."""

    noun: ClassVar[str] = "an item of stock"
    value = model.StockItem

    what: kinds.Name = key("what", "what is sold, such as a cord or a box", REQUIRED)
    category: kinds.Category | None = key("category", "its category")
    screened: kinds.Flag | None = key("screened", "whether it has a screen")
    cord_awg: kinds.Gauge | None = key("cord", "gauge of a stranded cord")
    ends: kinds.Name | None = key("ends", "its two ends, such as lc - lc")
    length_m: kinds.Length | None = key("length", "length it is sold in")
    price: kinds.Price | None = key("price", "price of one")


class HeaderShape(Shape):
    """What a plan says of itself, before its sections."""

    noun: ClassVar[str] = "a plan"
    value = model.Plan

    version: kinds.Version = key("netaudit", "the plan format", REQUIRED)
    name: kinds.FreeText | None = key("name", "what the plan is called")
    about: kinds.FreeText | None = key("about", "what the plan is for")
    headroom: kinds.Share = key("headroom", "share of goodput that is kept free", 0.3)
    regime: kinds.Regime = key("regime", "whose cabling rules judge copper and fibre", "iso")
    ambient_c: kinds.Temperature = key("ambient", "air along the cable routes", 20.0)
    tree_costs: kinds.TreeCosts = key("tree_costs", "path costs of spanning trees, 32 or 16 bits wide", "long")

    @classmethod
    def parts(cls, value: Any) -> Mapping[str, Any]:
        """The fields of the shape that would build the plan."""
        own = {"version": FORMAT, "routes": {name: route.length_m for name, route in value.routes.items()}}
        return {field: own[field] if field in own else getattr(value, field) for field in cls.fields()}


class PlanShape(HeaderShape):
    """A whole plan; the reader goes through its sections item by item, so that one bad item hides no other."""

    networks: dict[kinds.Name, NetworkShape] = key("networks", "networks by name", {})
    racks: dict[kinds.Name, RackShape] = key("racks", "racks by name", {})
    rooms: dict[kinds.Name, RoomShape] = key("rooms", "rooms by name; without it rooms are free words", {})
    devices: dict[kinds.DeviceName, AnyDeviceShape] = key("devices", "devices by name", {})
    cables: dict[kinds.Name, CableShape] = key("cables", "cables and cords by name", {})
    routes: dict[kinds.Name, kinds.Length] = key("routes", "named legs along which cables run, with their length", {})
    copies: tuple[CopyShape, ...] = key("copies", "copies that happen beside the editing", ())
    stock: tuple[StockShape, ...] = key("stock", "what can be bought, in the sizes it is sold in", ())
