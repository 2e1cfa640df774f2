"""Modules: what goes into the cages, two for each fibre between two of them."""

from __future__ import annotations

from collections.abc import Mapping

from netaudit.model.goods import Goods, Item
from netaudit.model.place import PortRef
from netaudit.model.plan import Plan, Port
from netaudit.network.plugs import CAGES
from netaudit.network.topology import Topology
from netaudit.ordering.shop.made_up import spares
from netaudit.ordering.shop.stock import Stock
from netaudit.standards.phys import phys


def modules(needed: Mapping[str, tuple[PortRef, ...]], stock: Stock, spare: float) -> tuple[Item, ...]:
    """A row for each physical layer, by the ports that need one; `spare` is the share that is ordered on top."""
    return tuple(
        Item(
            goods := Goods("module", detail=phy),
            quantity=len(ports),
            spares=spares(len(ports), spare),
            serves=tuple(map(str, ports)),
            price=stock.price(goods),
        )
        for phy, ports in needed.items()
    )


def needed_modules(plan: Plan, topology: Topology, chosen: Mapping[PortRef, str]) -> Mapping[str, tuple[PortRef, ...]]:
    """The ports that need a module bought, by physical layer, in plan order of the first port that takes it.

    A port that names a module needs one if a cable ends there, unless the port itself is `owned: true`; a device that
    is owned does not bring its modules. A cage at the end of a fibre that names none gets the one that was chosen.
    A module that the plan names is ordered even where a made-up cable ends, unless it is one for such cables; a port
    that is no cage takes none.
    """
    found: dict[str, list[PortRef]] = {}
    for device in plan.devices.values():
        for name, port in device.ports.items():
            if not may_take(port):
                continue
            ref = PortRef(device.name, name)
            phy = port.module or chosen.get(ref)
            if phy is not None and phys()[phy].medium != "twinax" and ref in topology.cabling.cables_at:
                found.setdefault(phy, []).append(ref)
    return {phy: tuple(ports) for phy, ports in found.items()}


def may_take(port: Port) -> bool:
    """Whether a module may have to be bought for a port: it is a cage, or may be one, and is not owned."""
    return not port.owned and (port.connector is None or port.connector in CAGES)
