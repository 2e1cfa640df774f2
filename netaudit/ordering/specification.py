"""Specification: what a switch that is not chosen yet has to have, as it follows from what is plugged into it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from netaudit.model.bill import PortNeed, Specification
from netaudit.model.place import PortRef
from netaudit.model.plan import Connector, Plan, Switch
from netaudit.network.forwarding import bond_of
from netaudit.network.links import Link
from netaudit.network.topology import Topology
from netaudit.ordering.crossing import Crossing, crossings
from netaudit.ordering.specification_notes import Wanted, notes


def specifications(plan: Plan, topology: Topology) -> tuple[Specification, ...]:
    """A specification for each switch with `owned: false`, in plan order.

    Only ports at which a cable ends count as needed; their rate is the one that the link agrees on or else the best
    of the far end, or else the port's own. The packet is the largest of the hosts and networks that cross the switch;
    where none of them says, of its own ports.
    """
    switches = [device for device in plan.devices.values() if isinstance(device, Switch) and device.owned is False]
    if not switches:
        return ()
    names = {switch.name for switch in switches}
    links: dict[str, list[Link]] = {name: [] for name in names}
    for link in topology.links:
        for device in {link.near.device, link.far.device} & names:
            links[device].append(link)
    crossing = crossings(plan, topology)
    ringed = set(_ringed(topology))
    return tuple(
        _specification(plan, topology, switch, links[switch.name], crossing.get(switch.name), ringed)
        for switch in switches
    )


def _specification(  # noqa: PLR0913, PLR0917 - what was worked out once for all switches
    plan: Plan,
    topology: Topology,
    switch: Switch,
    links: list[Link],
    crossing: Crossing | None,
    ringed: set[str],
) -> Specification:
    networks = () if crossing is None else crossing.networks
    vlans = (plan.networks[name].vlan for name in networks)
    octets = None if crossing is None else crossing.packet_octets
    bare = Specification(
        device=switch.name,
        needs=_needs(topology, switch, _links_by_port(switch.name, links)),
        packet_octets=_own_packet(switch) if octets is None else octets,
        bonds=len(switch.bonds) + len(_far_bonds(plan, switch, links)),
        vlans=tuple(sorted(vlan for vlan in vlans if vlan is not None)) if _told_apart(switch, networks) else (),
        spanning_tree=switch.name in ringed,
        watts=switch.watts if switch.watts_max is None else switch.watts_max,
    )
    return bare._replace(notes=notes(plan, Wanted(switch, bare, networks, tuple(links))))


def _told_apart(switch: Switch, networks: tuple[str, ...]) -> bool:
    """Whether frames have to be told apart by network: there are several, or one travels tagged."""
    return len(networks) > 1 or any(port.tagged for port in switch.ports.values())


def _links_by_port(device: str, links: Iterable[Link]) -> Mapping[str, list[Link]]:
    """The links at each port of a device, each seen from there."""
    found: dict[str, list[Link]] = {}
    for link in links:
        for end in (link.near, link.far):
            if end.device == device:
                found.setdefault(end.port, []).append(link)
    return found


def _needs(topology: Topology, switch: Switch, links: Mapping[str, list[Link]]) -> tuple[PortNeed, ...]:
    """Ports at which a cable ends, by connector and rate, in file order."""
    needed: dict[tuple[Connector | None, int | None], list[PortRef]] = {}
    for name, port in switch.ports.items():
        ref = PortRef(switch.name, name)
        if ref in topology.cabling.cables_at:
            own = None if port.rates is None else port.rates.bit_per_s[0]
            rate = max((rate for link in links.get(name, ()) if (rate := _rate(link, ref)) is not None), default=own)
            needed.setdefault((port.connector, rate), []).append(ref)
    return tuple(PortNeed(connector, rate, len(ports), tuple(ports)) for (connector, rate), ports in needed.items())


def _rate(link: Link, own: PortRef) -> int | None:
    """Rate that a link asks of one of its ports [bit/s]; the trunk of a breakout has to run all lanes together."""
    far_rates = link.far_rates if link.near == own else link.near_rates
    rate = link.agreed_bit_per_s or (far_rates[0] if far_rates else None)
    trunk = link.channel is not None and link.channel.trunk == own
    return rate * link.channel.lanes if trunk and rate is not None and link.channel is not None else rate


def _own_packet(switch: Switch) -> int | None:
    """The largest packet that its own ports are to be set to [octets]; None where none says."""
    return max((port.mtu for port in switch.ports.values() if port.mtu is not None), default=None)


def _far_bonds(plan: Plan, switch: Switch, links: Iterable[Link]) -> set[tuple[str, str]]:
    """Bonds of other devices that end at ports of a switch that are in no bond of its own, by device and name."""
    own_bonds = bond_of(switch)
    found: set[tuple[str, str]] = set()
    for link in links:
        own, far = (link.near, link.far) if link.near.device == switch.name else (link.far, link.near)
        bond = bond_of(plan.devices[far.device]).get(far.port)
        if bond is not None and own.port not in own_bonds and far.device != switch.name:
            found.add((far.device, bond))
    return found


def _ringed(topology: Topology) -> Iterator[str]:
    """Every device that stands in a ring, whatever networks its links carry."""
    for loop in topology.loops:
        yield from loop.devices
    for mesh in topology.tree.open:
        yield from mesh.devices
    for blocked in topology.tree.blocked:
        for link in (blocked.link, *blocked.detour):
            yield from (link.near.device, link.far.device)
