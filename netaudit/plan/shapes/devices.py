"""Shapes of devices: the keys of every role, of pools and of what a seat plays."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, ClassVar, Literal

from netaudit.model import plan as model
from netaudit.plan.scalars.ranges import joined_ranges
from netaudit.plan.shapes import kinds
from netaudit.plan.shapes.forms import REQUIRED, Built, Shape, key, words
from netaudit.plan.shapes.ports import BondShape, PassivePortShape, PortShape, StoragePortShape

_PortsByName = dict[kinds.PortKey, Annotated[model.Port, Built(PortShape)]]
_Bonds = dict[kinds.Name, Annotated[model.Bond, Built(BondShape)]]


def _role(*roles: str) -> Any:
    return words("a role of this kind", roles)


class RackPositionShape(Shape):
    """Where a device sits in a rack."""

    noun: ClassVar[str] = "a place in a rack"
    value = model.RackPosition

    rack: kinds.Name = key("name", "the rack", REQUIRED)
    unit: kinds.RackUnits = key("unit", "lowest unit it fills, counted from the bottom", REQUIRED)
    height: kinds.RackUnits = key("height", "units it fills", 1)
    mounted: kinds.Mounted = key("mounted", "side of the rack it is fixed to", "front")
    half: kinds.Half | None = key("half", "half of the width, where it fills only one")


class DeviceShape(Shape):
    """What every device may have."""

    noun: ClassVar[str] = "a device"

    role: kinds.Role = key("role", "what it is", REQUIRED)
    room: kinds.Name | None = key("room", "the room it stands in")
    rack: Annotated[model.RackPosition, Built(RackPositionShape)] | None = key("rack", "where it sits in a rack")
    depth_m: kinds.Length | None = key("depth", "depth of its housing")
    watts: kinds.Power | None = key("watts", "power that it draws in use")
    watts_max: kinds.Power | None = key("watts_max", "most power that it draws")
    owned: kinds.Flag | None = key("owned", "whether you have it already")

    @classmethod
    def parts(cls, value: Any) -> Mapping[str, Any]:
        """The fields of the shape, ports that are alike as ranges again."""
        return {**super().parts(value), "ports": joined_ranges(value.ports)}


class PassiveShape(DeviceShape):
    """A panel or an outlet: its ports only join two cables."""

    noun: ClassVar[str] = "a panel or outlet"
    value = model.Device

    role: Annotated[Literal["panel", "outlet"], _role("panel", "outlet")] = key("role", "what it is", REQUIRED)
    ports: dict[kinds.PortKey, Annotated[model.Port, Built(PassivePortShape)]] = key("ports", "ports by name", {})


class ActiveShape(DeviceShape):
    """What every device with ports of its own rate may have."""

    ports: _PortsByName = key("ports", "ports by name, in the order of their numbers", {})
    bonds: _Bonds = key("bonds", "ports that work as one, by the name of the bond", {})
    bridges: tuple[kinds.Name, ...] = key(
        "bridges", "ports between which it forwards frames, where its role does not already do so", ()
    )


class FormatShape(Shape):
    """A picture or sound format."""

    noun: ClassVar[str] = "a format"
    value = model.Format

    codec: kinds.Name = key("codec", "the codec", REQUIRED)
    profile: kinds.Name | None = key("profile", "profile of the codec")
    level: kinds.Name | None = key("level", "level of the codec")
    raster: kinds.Raster | None = key("raster", "width and height [pixels]")
    fps: kinds.Fps | None = key("fps", "frames each second; 23.976, 29.97 and so on mean the exact fraction")
    bits: kinds.Bits | None = key("bits", "depth of a sample [bits]")
    sampling: kinds.Sampling | None = key("sampling", "chroma sampling")
    ratio: kinds.Ratio | None = key("ratio", "compression, uncompressed to compressed")
    channels: kinds.Channels | None = key("channels", "sound channels")
    sample_rate_hz: kinds.SampleRate | None = key("sample_rate", "sound samples each second")


class StreamShape(Shape):
    """A row of what a seat plays or records at once."""

    value = model.Stream
    exclusive: ClassVar[tuple[str, str] | None] = ("rate_bit_per_s", "format")

    what: kinds.Name | None = key("what", "what the streams are")
    streams: kinds.Streams = key("streams", "how many run at once", 1)
    rate_bit_per_s: kinds.StreamRate | None = key("rate", "rate of one stream; or give its format")
    format: Annotated[model.Format, Built(FormatShape)] | None = key("format", "format from which the rate follows")
    pool: kinds.PoolReference | None = key("pool", "pool that it goes through")
    when: kinds.Name = key("when", "rows of one word add up; the largest and always count", "always")


class PlayShape(StreamShape):
    """A row of what a seat plays."""

    noun: ClassVar[str] = "a row of `plays`"
    pool: kinds.PoolReference | None = key("from", "pool that it is read from")


class RecordShape(StreamShape):
    """A row of what a seat records."""

    noun: ClassVar[str] = "a row of `records`"
    pool: kinds.PoolReference | None = key("to", "pool that it is written to")


class StationShape(ActiveShape):
    """An edit seat."""

    noun: ClassVar[str] = "a station"
    value = model.Station

    role: Annotated[Literal["station"], _role("station")] = key("role", "what it is", REQUIRED)
    system: kinds.System | None = key("system", "its operating system")
    service_order: tuple[kinds.Name, ...] = key("service_order", "ports in the order that the system prefers", ())
    metrics: dict[kinds.Name, kinds.Metric] = key("metrics", "route metric of a port, where it was set by hand", {})
    manager: kinds.Name | None = key("manager", "what manages the network on Linux")
    wants_bit_per_s: kinds.PortRate | None = key("wants", "rate that the seat is meant to have")
    edits_from: tuple[kinds.StorageReference, ...] | None = key(
        "edits_from", "storages, or storage/port", unsaid="every storage whose purpose is edit"
    )
    plays: tuple[Annotated[model.Stream, Built(PlayShape)], ...] = key("plays", "what it plays at once", ())
    records: tuple[Annotated[model.Stream, Built(RecordShape)], ...] = key("records", "what it records at once", ())


class PoolShape(Shape):
    """Disks that work as one."""

    noun: ClassVar[str] = "a pool"
    value = model.Pool

    drives: kinds.Drives | None = key("drives", "all its drives, spares included")
    size_bytes: kinds.Size | None = key("size", "size of one drive")
    read_bit_per_s: kinds.DiskRate | None = key("read", "reading rate of one drive")
    write_bit_per_s: kinds.DiskRate | None = key("write", "writing rate of one drive")
    measured_read_bit_per_s: kinds.DiskRate | None = key("measured_read", "reading rate of the pool as measured")
    measured_write_bit_per_s: kinds.DiskRate | None = key("measured_write", "writing rate of the pool as measured")
    layout: kinds.Layout | None = key("layout", "how the drives are combined")
    groups: kinds.Drives = key("groups", "parity groups that the drives are divided into", 1)
    spares: kinds.Spares = key("spares", "drives that only wait", 0)


class StorageShape(ActiveShape):
    """A storage server."""

    noun: ClassVar[str] = "a storage"
    value = model.Storage

    role: Annotated[Literal["storage"], _role("storage")] = key("role", "what it is", REQUIRED)
    ports: dict[kinds.PortKey, Annotated[model.Port, Built(StoragePortShape)]] = key("ports", "ports by name", {})
    purpose: kinds.StoragePurpose = key("purpose", "what it is for", "edit")
    pools: dict[kinds.Name, Annotated[model.Pool, Built(PoolShape)]] = key("pools", "pools of disks by name", {})
    nodes: dict[kinds.Name, tuple[kinds.Name, ...]] = key("nodes", "nodes of a cluster, each with its ports", {})
    virtual: dict[kinds.Name, kinds.Address] = key("virtual", "network to the address that moves between nodes", {})


class SwitchShape(ActiveShape):
    """A switch."""

    noun: ClassVar[str] = "a switch"
    value = model.Switch

    role: Annotated[Literal["switch"], _role("switch")] = key("role", "what it is", REQUIRED)
    spanning_tree: kinds.Flag | None = key("spanning_tree", "whether it runs spanning tree", unsaid="false")
    priority: kinds.Priority | None = key("priority", "its bridge priority")
    mac: kinds.Mac | None = key("mac", "its bridge address")
    fabric_bit_per_s: kinds.PortRate | None = key("fabric", "what it can forward in all")


class InternetShape(ActiveShape):
    """The way out."""

    noun: ClassVar[str] = "the internet"
    value = model.Internet

    role: Annotated[Literal["internet"], _role("internet")] = key("role", "what it is", REQUIRED)
    up_bit_per_s: kinds.PortRate | None = key("up", "rate towards the internet")
    down_bit_per_s: kinds.PortRate | None = key("down", "rate from the internet")


class OtherShape(ActiveShape):
    """A device whose role has no keys of its own."""

    value = model.Device

    role: Annotated[
        Literal["router", "access-point", "adapter", "ups", "other"],
        _role("router", "access-point", "adapter", "ups", "other"),
    ] = key("role", "what it is", REQUIRED)


SHAPE_OF_ROLE: Mapping[str, type[DeviceShape]] = {
    "station": StationShape,
    "storage": StorageShape,
    "switch": SwitchShape,
    "router": OtherShape,
    "access-point": OtherShape,
    "panel": PassiveShape,
    "outlet": PassiveShape,
    "adapter": OtherShape,
    "internet": InternetShape,
    "ups": OtherShape,
    "other": OtherShape,
}
"""The shape of a device of each role."""
