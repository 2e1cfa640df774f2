"""The order of plugs: from the inside of the room out when they go in, and back when they come out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from netaudit.model.moving import Step
from netaudit.model.place import PortRef
from netaudit.model.plan import Cable, Plan, Role
from netaudit.network.channels import Channel
from netaudit.network.hosts import PHY as HOST_PHY
from netaudit.network.topology import Topology
from netaudit.ordering.shop.shopping import is_laid

GROUPS = ("storage", "between switches", "internet and office", "spare runs", "seats")
"""What is plugged together, from the inside of the room out: common practice, no source."""
INNER_ROLES = (
    "storage", "switch", "router", "access-point", "internet", "other", "ups", "adapter", "panel", "outlet", "station",
)  # fmt: skip
"""Roles from the inside of the room out; of the two ends of a cable the inner one is gone to first."""
_BACKBONE = frozenset({"switch", "router"})


class _Laid(NamedTuple):
    """A cable, and its end further in."""

    cable: Cable
    inner: PortRef
    """Of a breakout that is reached by a tail, that tail."""


class _Chain(NamedTuple):
    """Cables that are plugged one after the other, from the inner end out."""

    group: int
    """Its place among the groups."""
    rack: tuple[int, int]
    """Place of its rack in the plan, and how far its inner end is from the top; racks before everything else."""
    order: tuple[int, int]
    """Place of its first cable in the plan, and of the end at which that cable leads on; tails tell chains apart."""
    cables: tuple[_Laid, ...]


def plug_order(plan: Plan, topology: Topology) -> tuple[Step, ...]:
    """Every cable that is plugged, in the order in which to plug it in: neither installed nor laid in a wall to stay.

    From the inside out: storage, between switches and routers, internet and office, spare runs, seats. Within a group
    by rack, the top unit first, then in plan order. The cords of one link stay together, the inner one first. A cable
    at a seat belongs to the seats wherever it leads.
    """
    return tuple(_numbered(_steps(plan, topology)))


def unplug_order(plan: Plan, topology: Topology) -> tuple[Step, ...]:
    """The same in exactly the reverse order, without the cables that nobody owns yet: the seats first."""
    plugs = reversed(list(_steps(plan, topology)))
    return tuple(_numbered(plug for plug in plugs if plan.cables[plug[1]].owned))


_Plugs = tuple[str, str, PortRef, tuple[PortRef, ...]]
"""A step without its number."""


def _numbered(plugs: Iterable[_Plugs]) -> Iterator[Step]:
    return (Step(number, *each) for number, each in enumerate(plugs, start=1))


def _steps(plan: Plan, topology: Topology) -> Iterator[_Plugs]:
    """The steps of plugging in, not yet numbered."""
    done = plan.cables.keys() - {cable.name for cable in loose(plan)}
    for chain in sorted(_chains(plan, topology), key=lambda chain: chain[:3]):
        for cable, inner in chain.cables:
            if cable.name not in done:
                done.add(cable.name)
                then = tuple(end for end in cable.ends if end != inner)
                yield GROUPS[chain.group], cable.name, inner, then


def loose(plan: Plan) -> tuple[Cable, ...]:
    """The cables that are plugged by hand: neither installed nor laid in a wall to stay."""
    passive = {device.name for device in plan.devices.values() if device.passive}
    return tuple(cable for cable in plan.cables.values() if not cable.installed and not is_laid(cable, passive))


def _chains(plan: Plan, topology: Topology) -> Iterator[_Chain]:
    """The cables of each link together, and each that is in none by itself."""
    sorter = _Sorter(plan, topology)
    linked: set[str] = set()
    for link in topology.links:
        if link.channel is not None:
            linked.update(link.cables)
            yield sorter.linked(link.channel)
    yield from (sorter.alone(cable) for cable in plan.cables.values() if cable.name not in linked)


class _Sorter:
    """Knows where in the room everything is."""

    def __init__(self, plan: Plan, topology: Topology) -> None:
        self._order = {name: place for place, name in enumerate(plan.cables)}
        self._tails = {
            (cable.name, tail): place
            for cable in plan.cables.values()
            if len(cable.to_ports) > 1
            for place, tail in enumerate(cable.to_ports, start=1)
        }
        """Breakout and tail to the place of that tail."""
        self._role = {device.name: device.role for device in plan.devices.values()}
        self._serves = _served_by_adapters(topology, self._role)
        racks = {name: place for place, name in enumerate(plan.racks)}
        self._outside = (len(racks), 0)
        self._rack = {
            device.name: (racks.get(device.rack.rack, len(racks)), -device.rack.unit - device.rack.height)
            for device in plan.devices.values()
            if device.rack is not None
        }

    def linked(self, channel: Channel) -> _Chain:
        """The cables of a link."""
        nodes, cables = (channel.near, *channel.joints, channel.far), channel.cables
        if self._depth(channel.far) < self._depth(channel.near):
            nodes, cables = nodes[::-1], cables[::-1]
        laid = [_Laid(cable, inner) for cable, inner in zip(cables, nodes[:-1], strict=True)]
        order = min(
            (self._order[cable.name], max(self._tails.get((cable.name, end), 0) for end in (inner, outer)))
            for (cable, inner), outer in zip(laid, nodes[1:], strict=True)
        )
        return _Chain(self._group(channel.near, channel.far), self._first_rack(nodes), order, tuple(laid))

    def alone(self, cable: Cable) -> _Chain:
        """A cable over which no link runs."""
        nodes = sorted(cable.ends, key=self._depth)
        kinds = {self._kind(end) for end in nodes}
        group = "seats" if "station" in kinds else "storage" if "storage" in kinds else "spare runs"
        order = (self._order[cable.name], 0)
        return _Chain(GROUPS.index(group), self._first_rack(nodes), order, (_Laid(cable, nodes[0]),))

    def _first_rack(self, nodes: Sequence[PortRef]) -> tuple[int, int]:
        """The place of the first of some ports that is in a rack, or else the place outside of all."""
        return next((self._rack[node.device] for node in nodes if node.device in self._rack), self._outside)

    def _group(self, near: PortRef, far: PortRef) -> int:
        """The group of a link by what is at its two ends."""
        kinds = {self._kind(near), self._kind(far)}
        if "station" in kinds:
            return GROUPS.index("seats")
        if "storage" in kinds:
            return GROUPS.index("storage")
        return GROUPS.index("between switches" if kinds <= _BACKBONE else "internet and office")

    def _kind(self, port: PortRef) -> str:
        """The role of a device; of an adapter, that of the machine which it serves."""
        return self._serves.get(port.device, self._role[port.device])

    def _depth(self, port: PortRef) -> tuple[int, tuple[int, int]]:
        """How far from the inside of the room a port is, the top of the first rack before all of its like."""
        return INNER_ROLES.index(self._role[port.device]), self._rack.get(port.device, self._outside)


def _served_by_adapters(topology: Topology, role: Mapping[str, Role]) -> Mapping[str, Role]:
    """Each adapter to the role of the machine that it hangs on by its host cable."""
    return {
        adapter.device: role[machine.device]
        for link in topology.links
        if link.phy == HOST_PHY
        for adapter, machine in ((link.near, link.far), (link.far, link.near))
        if role[adapter.device] == "adapter" and role[machine.device] in ("station", "storage")
    }
