"""Wanted switches: those that are not chosen yet, each with all that the plan asks of it."""

from __future__ import annotations

from collections.abc import Collection, Container, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import Network, Plan, Station, Switch
from netaudit.model.specification import PortNeed
from netaudit.network.forwarding import bond_of
from netaudit.network.links import Link
from netaudit.network.topology import Topology
from netaudit.ordering.equipment.crossing import Crossing, crossings
from netaudit.ordering.equipment.port_needs import port_needs
from netaudit.ordering.rooms import room_of_device


class Wanted(NamedTuple):
    """A switch that is to be bought, with what the plan asks of it."""

    plan: Plan
    switch: Switch
    links: Sequence[Link]
    """Its links."""
    needs: tuple[PortNeed, ...]
    """Ports that it has to have."""
    tagged: frozenset[str]
    """Networks whose frames reach any of its ports with tags."""
    told_apart: tuple[Network, ...]
    """Networks that it has to keep apart, in file order; empty where frames of one alone cross it, without tags."""
    packet_octets: int | None
    """Largest packet of hosts and networks that cross it, or else of its own ports [octets]; None where none says."""
    own_octets: int | None
    """Largest packet that its own ports are planned for [octets]."""
    bonds: int
    """Bonds that it has to terminate."""
    ringed: bool
    """Whether it stands in a ring."""
    room: str | None
    """Where it stands; None where the plan does not say."""
    seats: tuple[str, ...]
    """Stations in that room."""

    @property
    def tree(self) -> bool:
        """Whether it has to run a spanning tree."""
        return self.ringed or self.switch.spanning_tree is True


def wanted_switches(plan: Plan, topology: Topology) -> tuple[Wanted, ...]:
    """Every switch with `owned: false`, in plan order."""
    switches = {
        name: device for name, device in plan.devices.items() if isinstance(device, Switch) and device.owned is False
    }
    if not switches:
        return ()
    room = _Room(
        plan=plan,
        cabled=topology.cabling.cables_at,
        links=_links_of(switches, topology.links),
        crossings=crossings(plan, topology),
        bonds={device.name: bond_of(device) for device in plan.devices.values() if device.bonds},
        ringed=topology.ringed,
        seats=_seats(plan),
    )
    return tuple(room.wanted(switch) for switch in switches.values())


class _Room(NamedTuple):
    """What is worked out once for all switches."""

    plan: Plan
    cabled: Container[PortRef]
    links: Mapping[str, Sequence[Link]]
    """The links of each switch that is to be bought."""
    crossings: Mapping[str, Crossing]
    bonds: Mapping[str, Mapping[str, str]]
    """Device with bonds to its bonded ports, with their bonds."""
    ringed: frozenset[str]
    """Devices in a ring."""
    seats: Mapping[str, tuple[str, ...]]
    """Room to the stations in it."""

    def wanted(self, switch: Switch) -> Wanted:
        """All that is asked of one switch."""
        links = self.links[switch.name]
        crossing = self.crossings.get(switch.name, Crossing())
        tagged = _tagged(switch)
        room = room_of_device(self.plan, switch)
        own_octets = max(_own_packets(switch), default=None)
        return Wanted(
            plan=self.plan,
            switch=switch,
            links=links,
            needs=port_needs(switch, _by_port(switch.name, links), self.cabled),
            tagged=tagged,
            told_apart=_told_apart(self.plan, tagged.union(crossing.networks), tagged),
            packet_octets=crossing.packet_octets or own_octets,
            own_octets=own_octets,
            bonds=len(switch.bonds) + len(self._far_bonds(switch, links)),
            ringed=switch.name in self.ringed,
            room=room,
            seats=() if room is None else self.seats.get(room, ()),
        )

    def _far_bonds(self, switch: Switch, links: Iterable[Link]) -> set[tuple[str, str]]:
        """Bonds of other devices that end at ports that are in no bond of the switch's own, by device and name."""
        own_bonds = self.bonds.get(switch.name, {})
        found: set[tuple[str, str]] = set()
        for link in links:
            own, far = (link.near, link.far) if link.near.device == switch.name else (link.far, link.near)
            bond = self.bonds.get(far.device, {}).get(far.port)
            if bond is not None and own.port not in own_bonds and far.device != switch.name:
                found.add((far.device, bond))
        return found


def _links_of(switches: Iterable[str], links: Iterable[Link]) -> Mapping[str, Sequence[Link]]:
    found: dict[str, list[Link]] = {name: [] for name in switches}
    for link in links:
        for device in {link.near.device, link.far.device} & found.keys():
            found[device].append(link)
    return found


def _by_port(device: str, links: Iterable[Link]) -> Mapping[str, Sequence[Link]]:
    """The links at each port of a device."""
    found: dict[str, list[Link]] = {}
    for link in links:
        for end in (link.near, link.far):
            if end.device == device:
                found.setdefault(end.port, []).append(link)
    return found


def _tagged(switch: Switch) -> frozenset[str]:
    """The networks whose frames reach any port of a switch with tags."""
    return frozenset().union(*{port.tagged for port in switch.ports.values()})


def _told_apart(plan: Plan, met: Collection[str], tagged: Collection[str]) -> tuple[Network, ...]:
    """The networks that a switch meets, in file order, where there are several of them or any has tags."""
    if len(met) < 2 and not tagged:
        return ()
    return tuple(network for name, network in plan.networks.items() if name in met)


def _own_packets(switch: Switch) -> Iterator[int]:
    """What its own ports and bonds are to be set to [octets]."""
    mtus = (*(port.mtu for port in switch.ports.values()), *(bond.mtu for bond in switch.bonds.values()))
    return (mtu for mtu in mtus if mtu is not None)


def _seats(plan: Plan) -> Mapping[str, tuple[str, ...]]:
    """The stations in each room."""
    found: dict[str, list[str]] = {}
    for device in plan.devices.values():
        room = room_of_device(plan, device) if isinstance(device, Station) else None
        if room is not None:
            found.setdefault(room, []).append(device.name)
    return {room: tuple(names) for room, names in found.items()}
