"""The port map: each port of each device, what is plugged into it, and what stands at the other end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from netaudit.model.moving import PortRow
from netaudit.model.place import PortRef
from netaudit.model.plan import Cable, Device, Plan
from netaudit.network.channels import Cabling
from netaudit.network.forwarding import bond_of
from netaudit.network.links import Link
from netaudit.network.topology import Topology

_Plug = tuple[PortRef, str]
"""A port, and the name of a cable plugged into it."""
_Known = dict[_Plug, dict[PortRef, dict[PortRef, int | None]]]
"""From a plug to the other end of its cable, to the active port behind that, to the rate of the link [bit/s]."""


class _Reach(NamedTuple):
    """What is seen from a port: the other end of its cable, the active port behind it, and the rate of the link."""

    cable: str | None
    far: PortRef | None
    peer: PortRef | None
    rate_bit_per_s: int | None


_NOTHING = _Reach(None, None, None, None)


def port_map(plan: Plan, topology: Topology) -> tuple[PortRow, ...]:
    """Every port of every device in file order.

    A port with two cables has a row for each, and the trunk of a breakout a row for each tail. A member of a bond shows
    the bond's network and addresses. A radio shows what it joins, and its rate, where it can join one thing only.
    """
    eyes = _Eyes(plan, topology)
    return tuple(row for device in plan.devices.values() for row in _device_rows(device, eyes))


def _device_rows(device: Device, eyes: _Eyes) -> Iterator[PortRow]:
    bonds = bond_of(device)
    for name, port in device.ports.items():
        ref = PortRef(device.name, name)
        network, addresses = port.untagged, port.addresses
        if name in bonds:
            bond = device.bonds[bonds[name]]
            network, addresses = network or bond.untagged, (*addresses, *bond.addresses)
        for cable, far, peer, rate in eyes.see(ref):
            yield PortRow(ref, port.connector, port.module, cable, far, peer, network, addresses, rate)


class _Eyes:
    """Sees from every port to the other end."""

    def __init__(self, plan: Plan, topology: Topology) -> None:
        self._plan = plan
        self._cables_at: Mapping[PortRef, Sequence[Cable]] = topology.cabling.cables_at
        self._radios = _radios(topology.links)
        self._known = _over_links(topology.links)
        for plug, far, peer in _to_dead_ends(topology.cabling):
            self._known.setdefault(plug, {}).setdefault(far, {}).setdefault(peer, None)

    def see(self, port: PortRef) -> Sequence[_Reach]:
        """What a port leads to, by each of its cables."""
        cables = self._cables_at.get(port)
        if not cables:
            return (self._radios.get(port) or _NOTHING,)
        return [reach for cable in cables for reach in self._along(port, cable)]

    def _along(self, port: PortRef, cable: Cable) -> Iterator[_Reach]:
        """What a cable leads to from one of its ends; an active port at the other one is a peer without any link."""
        known = self._known.get((port, cable.name), {})
        for far in cable.to_ports if port == cable.from_port else (cable.from_port,):
            if far in known:
                for peer, rate in known[far].items():
                    yield _Reach(cable.name, far, peer, rate)
            else:
                passive = self._plan.devices[far.device].passive
                yield _Reach(cable.name, far, None if passive else far, None)


def _over_links(links: Iterable[Link]) -> _Known:
    """What each plug of a link leads to, at the agreed rate; None where lanes that share a plug differ."""
    found: _Known = {}
    for link in links:
        if link.channel is None:
            continue
        rate = link.agreed_bit_per_s
        nodes = (link.near, *link.channel.joints, link.far)
        for (one, other), cable in zip(pairwise(nodes), link.channel.cables, strict=True):
            for port, far, peer in ((one, other, link.far), (other, one, link.near)):
                rates = found.setdefault((port, cable.name), {}).setdefault(far, {})
                rates[peer] = rate if rates.setdefault(peer, rate) == rate else None
    return found


def _to_dead_ends(cabling: Cabling) -> Iterator[tuple[_Plug, PortRef, PortRef]]:
    """What each plug between an active port and the passive port at which its cables stop leads to."""
    for start, stop in cabling.dead_ends.items():
        trail: list[tuple[PortRef, Cable, PortRef]] = []
        port, walked = stop, set[str]()
        while port != start:
            cable = next((one for one in cabling.cables_at[port] if one.name not in walked), None)
            if cable is None or (port == cable.from_port and len(cable.to_ports) > 1):
                break
            walked.add(cable.name)
            far = cable.to_ports[0] if port == cable.from_port else cable.from_port
            trail.append((port, cable, far))
            port = far
        else:
            for near, cable, far in trail:
                yield (near, cable.name), far, start


def _radios(links: Iterable[Link]) -> Mapping[PortRef, _Reach]:
    """What each radio joins; nothing for one that may join several."""
    found: dict[PortRef, _Reach] = {}
    for link in links:
        if link.by_radio:
            for port, peer in ((link.near, link.far), (link.far, link.near)):
                reach = _Reach(None, None, peer, link.agreed_bit_per_s)
                found[port] = _NOTHING if port in found else reach
    return found
