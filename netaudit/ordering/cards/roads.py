"""Roads behind the ports of a card: whether a cable leads straight to another machine, or switches stand between."""

from __future__ import annotations

from collections.abc import Iterable

from netaudit.model.place import PortRef
from netaudit.model.plan import Plan
from netaudit.network.topology import Topology
from netaudit.ordering.cards.settings import CardPort

MACHINES = frozenset({"station", "storage"})


class Roads:
    """Knows what the links of a plan lead to."""

    def __init__(self, plan: Plan, topology: Topology) -> None:
        self._devices = plan.devices
        self._beyond: dict[PortRef, list[PortRef]] = {}
        for link in topology.links:
            self._beyond.setdefault(link.near, []).append(link.far)
            self._beyond.setdefault(link.far, []).append(link.near)

    def direct(self, port: CardPort) -> bool:
        """Whether all links of a port lead to another machine, with nothing but adapters between."""
        own = port.setting.port.device
        ahead, passed = self._behind(own, port.members or (port.setting.port.port,)), {own}
        roles = set()
        while ahead:
            name = ahead.pop()
            if name not in passed:
                passed.add(name)
                device = self._devices[name]
                roles.add(device.role)
                ahead += self._behind(name, device.ports) if device.role == "adapter" else []
        return bool(roles & MACHINES) and roles <= {*MACHINES, "adapter"}

    def _behind(self, device: str, ports: Iterable[str]) -> list[str]:
        """Devices that the links of some ports lead to."""
        return [far.device for port in ports for far in self._beyond.get(PortRef(device, port), ())]
