"""Parts: jacks and plugs for the ends of bulk cable, and every housing and machine that is still to be bought."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from netaudit.model.goods import Goods, Item, What
from netaudit.model.place import PortRef
from netaudit.model.plan import COPPER_CATEGORIES, Cable, Device, Plan, Port, Role, Station, Storage
from netaudit.ordering.equipment.free_ports import PortKind, kind_of, kind_text
from netaudit.ordering.shop.made_up import spares
from netaudit.ordering.shop.stock import Stock
from netaudit.standards.screens import screened_categories
from netaudit.units import number_text

SOLID = "for solid conductors"
"""What a plug has to be made for that ends a bulk cable."""
NO_ADAPTERS = frozenset({"radio", "usb-a", "usb-c", "thunderbolt"})
"""Connectors of ports that are no network adapter for a cable: the air, and the computer's own sockets."""

_WHAT: Mapping[Role, What] = {
    "station": "station",
    "storage": "storage",
    "switch": "switch",
    "router": "router",
    "access-point": "access-point",
    "panel": "panel",
    "outlet": "plate",
    "adapter": "adapter",
    "ups": "ups",
    "other": "other",
}
"""What the bill calls a device; the internet is not bought."""


def parts(plan: Plan, bulk_cables: Sequence[Cable], stock: Stock, spare: float) -> tuple[Item, ...]:
    """A row for each kind of jack, of plug, of housing or machine and of network adapter, in this order.

    Every end of a bulk cable gets a jack, unless the port has one already: then the jack is there where the port is
    `owned: true`, and where another cable took its back the end gets a plug. Panels, plates and adapters count as to
    be bought unless they are owned or an installed cable ends at them; all other devices only where `owned: false`.
    Only jacks and plugs have spares.
    """
    small = [*_endings(plan, bulk_cables).items()]
    return (
        *(_item(goods, serves, stock, spares(len(serves), spare)) for goods, serves in small),
        *(_item(goods, serves, stock, 0) for goods, serves in _machines(plan).items()),
        *(_item(goods, serves, stock, 0) for goods, serves in _network_adapters(plan).items()),
    )


def _item(goods: Goods, serves: Sequence[str], stock: Stock, spare: int) -> Item:
    return Item(goods, quantity=len(serves), spares=spare, serves=tuple(serves), price=stock.price(goods))


def _endings(plan: Plan, bulk_cables: Sequence[Cable]) -> dict[Goods, list[str]]:
    """Jacks, then plugs, each with the ports at whose bulk cables they go on."""
    taken = {end for cable in plan.cables.values() if cable.installed for end in cable.ends}
    jacks: dict[Goods, list[str]] = {}
    plugs: dict[Goods, list[str]] = {}
    for cable in bulk_cables:
        for end in cable.ends:
            port = plan.devices[end.device].ports[end.port]
            if end in taken:
                goods = Goods("plug", SOLID, category=cable.category, screened=cable.screened)
                plugs.setdefault(goods, []).append(str(end))
            elif not port.owned:
                jacks.setdefault(_jack(port, cable), []).append(str(end))
            taken.add(end)
    return {**jacks, **plugs}


def _jack(port: Port, cable: Cable) -> Goods:
    """The jack for the end of a cable: of the port's own category and screen where it has them.

    It is screened as well where its category is by construction.
    """
    category = port.category if port.category in COPPER_CATEGORIES else cable.category
    screened = cable.screened if port.screened is None else port.screened
    return Goods("jack", category=category, screened=screened or category in screened_categories())


def new_devices(plan: Plan) -> tuple[Device, ...]:
    """The devices that are still to be bought, in plan order."""
    there = {end.device for cable in plan.cables.values() if cable.installed for end in cable.ends}
    return tuple(device for device in plan.devices.values() if _to_buy(device, there))


def _to_buy(device: Device, there: set[str]) -> bool:
    """Whether a device is still to be bought; `there` are those at which an installed cable ends."""
    if device.role not in _WHAT:
        return False
    if device.owned is not None:
        return not device.owned
    return device.role == "adapter" or (device.passive and device.name not in there)


def _machines(plan: Plan) -> dict[Goods, list[str]]:
    found: dict[Goods, list[str]] = {}
    for device in new_devices(plan):
        found.setdefault(_machine(device), []).append(device.name)
    return found


def _machine(device: Device) -> Goods:
    """What a device is bought as: by its name where its role says nothing, by what its openings are made for."""
    what = _WHAT[device.role]
    if device.role == "other":
        return Goods(what, device.name)
    if device.role == "ups":
        watts = device.watts if device.watts_max is None else device.watts_max
        power = None if watts is None else f"{number_text(watts)} W"
        return Goods(what, ", ".join(filter(None, (power, _ports_text(device)))) or None)
    categories = {port.category for port in device.ports.values()}
    screens = {port.screened for port in device.ports.values()}
    return Goods(
        what,
        _ports_text(device),
        category=categories.pop() if len(categories) == 1 else None,
        screened=screens.pop() if len(screens) == 1 else None,
    )


def _ports_text(device: Device) -> str | None:
    """The ports of a device by kind: `24 x rj45`, `8 x rj45 10 Gb/s + 2 x sfp+ 10 Gb/s`; None if it has none."""
    counts: dict[PortKind, int] = {}
    for port in device.ports.values():
        kind = kind_of(port)
        counts[kind] = counts.get(kind, 0) + 1
    return " + ".join(f"{count} x {kind_text(kind)}" for kind, count in counts.items()) or None


def _network_adapters(plan: Plan) -> dict[Goods, list[str]]:
    found: dict[Goods, list[str]] = {}
    for ref, port in new_adapters(plan):
        detail = ", ".join(_adapter_words(port)) or None
        found.setdefault(Goods("network adapter", detail), []).append(str(ref))
    return found


def new_adapters(plan: Plan) -> Iterator[tuple[PortRef, Port]]:
    """The ports of adapters to be put into or plugged into machines that are there."""
    for device in plan.devices.values():
        if isinstance(device, Station | Storage) and device.owned is not False:
            for name, port in device.ports.items():
                if port.owned is False and port.connector not in NO_ADAPTERS:
                    yield PortRef(device.name, name), port


def _adapter_words(port: Port) -> Iterator[str]:
    kind = kind_of(port)
    if kind != PortKind(None, None):
        yield kind_text(kind)
    if port.bus is not None:
        yield f"for {port.bus}"
