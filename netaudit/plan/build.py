"""From the raw tree to a Plan: every section item by item, so that one bad item hides no other."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from netaudit.model.plan import Device, Plan, Route
from netaudit.plan.check import checked, kind_of, not_a_mapping, salvaged, unknown_key
from netaudit.plan.expand import Expander
from netaudit.plan.reading.problems import Problems
from netaudit.plan.reading.raw import Document, Mapping, Sequence, Spot
from netaudit.plan.scalars.quantities import length_m
from netaudit.plan.scalars.text import device_name, name, quoted
from netaudit.plan.shapes.devices import SHAPE_OF_ROLE, DeviceShape
from netaudit.plan.shapes.forms import Shape
from netaudit.plan.shapes.outline import keys
from netaudit.plan.shapes.sections import (
    CableShape,
    CopyShape,
    HeaderShape,
    NetworkShape,
    PlanShape,
    RackShape,
    RoomShape,
    StockShape,
)
from netaudit.units import share_text, temperature_text


def build(document: Document, problems: Problems) -> Plan:
    """The plan that a document describes, the problems noted.

    Where there are any the plan only serves to look up what is named in it: an item with problems holds what fits of
    it, or is left out.
    """
    top = document.spot
    header = _header(top, problems)
    return Plan(
        file=problems.file,
        **({} if header is None else {field: getattr(header, field) for field in _HEADER_FIELDS}),
        assumed=() if header is None else _assumed(header),
        networks=_built(top, "networks", NetworkShape, problems),
        racks=_built(top, "racks", RackShape, problems),
        rooms=_built(top, "rooms", RoomShape, problems),
        devices=_devices(top, problems),
        cables=_built(top, "cables", CableShape, problems),
        routes=_routes(top, problems),
        copies=_listed(top, "copies", CopyShape, problems),
        stock=_listed(top, "stock", StockShape, problems),
    )


_HEADER_FIELDS = tuple(field for field in HeaderShape.fields() if field != "version")


def _header(top: Spot, problems: Problems) -> HeaderShape | None:
    """What the plan says of itself; keys that are neither that nor a section are noted."""
    own = Mapping()
    known, of_header = keys(PlanShape), keys(HeaderShape)
    for key, index, spot in top.entries():
        if key in of_header:
            own[key] = spot.raw
            own.marks += (index, spot.index)
        elif key not in known:
            problems.add(index, spot.path, *unknown_key(key, PlanShape.noun, PlanShape))
    return checked(HeaderShape, Spot(own, top.index, ()), problems)


def _assumed(header: HeaderShape) -> tuple[str, ...]:
    texts = {
        "headroom": f"headroom {share_text(header.headroom)}",
        "regime": f"regime {header.regime}",
        "ambient_c": f"ambient {temperature_text(header.ambient_c)}",
    }
    return tuple(text for field, text in texts.items() if field not in header.given)


def _built(top: Spot, section: str, shape: type[Shape], problems: Problems) -> dict[str, Any]:
    values = {}
    for item, spot in _items(top, section, name, problems):
        filled = checked(shape, spot, problems) or salvaged(shape, spot)
        if filled is not None:
            values[item] = filled.built(name=item)
    return values


def _routes(top: Spot, problems: Problems) -> dict[str, Route]:
    routes = {}
    for item, spot in _items(top, "routes", name, problems):
        if not isinstance(spot.raw, str):
            problems.add(spot.index, spot.path, f"a route is its length, such as 31 m, not {kind_of(spot.raw)}")
            continue
        try:
            routes[item] = Route(name=item, length_m=length_m(spot.raw))
        except ValueError as error:
            problems.add(spot.index, spot.path, str(error))
    return routes


def _devices(top: Spot, problems: Problems) -> dict[str, Device]:
    devices = {}
    expander = Expander(problems)
    for item, spot in _items(top, "devices", device_name, problems):
        shape = _shape_of_device(spot, problems)
        filled = None if shape is None else checked(shape, spot, problems)
        ports = None if filled is None else expander.ports(filled, spot)
        if filled is not None and ports is not None:
            devices[item] = filled.built(name=item, ports=ports)
    return devices


def _shape_of_device(spot: Spot, problems: Problems) -> type[DeviceShape] | None:
    if not isinstance(spot.raw, Mapping):
        problems.add(
            spot.index, spot.path, not_a_mapping(spot.raw, "a device is a mapping with keys such as role, ports")
        )
        return None
    role = spot.raw.get("role")
    shape = SHAPE_OF_ROLE.get(role) if isinstance(role, str) else None
    if role is None:
        problems.add(spot.index, spot.path, f"`role` is missing: what the device is, one of {' '.join(SHAPE_OF_ROLE)}")
    elif shape is None:
        at, word = spot.below("role"), role if isinstance(role, str) else None
        shown = kind_of(role) if word is None else quoted(word)
        known = " ".join(SHAPE_OF_ROLE)
        problems.add(at.index, at.path, f"{shown} is not a role, which is one of {known}", word, SHAPE_OF_ROLE)
    if shape is None:
        _tell_keys_of_no_role(spot, problems)
    return shape


def _tell_keys_of_no_role(spot: Spot, problems: Problems) -> None:
    """Note the keys of a device, itself of no role, that no role has."""
    known = {key: None for shape in SHAPE_OF_ROLE.values() for key in keys(shape)}
    for key, index, value in spot.entries():
        if key not in known:
            problems.add(index, value.path, f"{quoted(key)} is not a key of a device of any role", key, known)


def _listed(top: Spot, section: str, shape: type[Shape], problems: Problems) -> tuple[Any, ...]:
    spot = top.get(section)
    if spot is None:
        return ()
    if not isinstance(spot.raw, Sequence):
        message = f"{section} are a list, each item with a dash before it, not {kind_of(spot.raw)}"
        problems.add(spot.index, spot.path, message)
        return ()
    filled = [checked(shape, spot.below(place), problems) for place in range(len(spot.raw))]
    return tuple(each.built() for each in filled if each is not None)


def _items(top: Spot, section: str, named: Callable[[str], str], problems: Problems) -> Iterator[tuple[str, Spot]]:
    """The items of a section whose names are names."""
    spot = top.get(section)
    if spot is None:
        return
    if not isinstance(spot.raw, Mapping):
        problems.add(spot.index, spot.path, not_a_mapping(spot.raw, f"{section} are a mapping from names"))
        return
    for item, index, value in spot.entries():
        try:
            named(item)
        except ValueError as error:
            problems.add(index, value.path, str(error))
        else:
            yield item, value
