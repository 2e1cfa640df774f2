"""The rule of paths on reach: does each seat get to its storage at all."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product

from netaudit.citation import PLAN
from netaudit.listing import listed
from netaudit.model.finding import Judgement, NotChecked
from netaudit.model.path import Path
from netaudit.model.place import PortRef, port_place
from netaudit.model.plan import Device, Station
from netaudit.network.search import Towards, networks_between
from netaudit.rules.facts import Facts
from netaudit.rules.paths.networks import Misfit, crossed, dropped, named
from netaudit.rules.rule import Rule


def _planned_paths(facts: Facts) -> Iterable[Path]:
    return facts.planned


def _judge_road(path: Path, facts: Facts) -> Judgement:
    if path.hops:
        return _judge_network_of_ends(path, facts)
    reason, remedy = _why_no_road(facts, facts.plan.devices[path.station], facts.plan.devices[path.storage])
    return NO_PATH.finding(
        path.place, message=f"No road leads from {path.station} to {path.storage}: {reason}", remedy=remedy, source=PLAN
    )


def _judge_network_of_ends(path: Path, facts: Facts) -> NotChecked | None:
    """A road whose ends name their networks is a pass; one that leaves that open is not, in a plan with networks."""
    if not facts.plan.networks:
        return None
    for port in (path.from_port, path.to_port):
        if port is not None and facts.topology.forwarding.carried[port].any:
            return NO_PATH.not_checked(
                path.place,
                port_place(port),
                reason=f"The network of {port} is not given",
                decides=f"write down `network` of {port}: the road is there if both ends are in one network",
            )
    return None


def _why_no_road(facts: Facts, station: Device, storage: Device) -> tuple[str, str]:
    """The first thing that is missing between a seat and its storage, and the step that mends it."""
    mute = _mute_ports(station, storage)
    if mute:
        serve = f"Let {listed(mute)} serve files by leaving out `serves: false`, or edit from a port that does."
        return f"{listed(mute)} {'serves' if len(mute) == 1 else 'serve'} no files", serve
    for device, word in ((station, "leaves"), (storage, "reaches")):
        ports = [PortRef(device.name, name) for name, port in device.ports.items() if port.serves]
        if not any(port in facts.topology.forwarding.ways for port in ports):
            return _unlinked(facts, device, ports, word)
    blocked = _blocked_by_tree(facts, station, storage)
    if blocked is not None:
        return blocked
    crossed = _crossed_networks(facts, station, storage)
    if crossed is not None:
        return crossed
    near, far = _networks(facts, station), _networks(facts, storage)
    if near and far and not near & far:
        return (
            f"{station.name} is in {listed(sorted(near))}, {storage.name} serves in {listed(sorted(far))}, "
            "and no router that is the gateway of both joins them",
            f"Give {station.name} a port in {listed(sorted(far))}.",
        )
    dropped = _dropped_network(facts, near & far) or _mute_adapter(facts, station, storage)
    if dropped is not None:
        return dropped
    return (
        f"{_islands(facts, station)} and {_islands(facts, storage)} are not joined"
        + (f" in {listed(sorted(near & far))}" if near & far else ""),
        "Join them with a cable between ports of that network.",
    )


def _mute_ports(station: Device, storage: Device) -> list[PortRef]:
    """The ports of a storage that a seat may use and that serve no files; empty if any of them does."""
    targets = station.edits_from if isinstance(station, Station) and station.edits_from is not None else ()
    own = {name for target in targets for device, _, name in (target.partition("/"),) if device == storage.name}
    named = storage.ports if not own or "" in own else {name: storage.ports[name] for name in own & set(storage.ports)}
    return [] if any(port.serves for port in named.values()) else [PortRef(storage.name, name) for name in named]


def _mute_adapter(facts: Facts, station: Device, storage: Device) -> tuple[str, str] | None:
    """An adapter at the seat or the storage that is not said to forward frames."""
    for device in (station, storage):
        for name in device.ports:
            for edge in facts.topology.forwarding.ways.get(PortRef(device.name, name), ()):
                adapter = facts.plan.devices[edge.in_port.device]
                if adapter.role == "adapter" and not adapter.bridges and len(adapter.ports) > 1:
                    return (
                        f"{adapter.name} is not said to forward frames between its ports",
                        f"Write `bridges: [{', '.join(adapter.ports)}]` for {adapter.name}, if it does.",
                    )
    return None


def _blocked_by_tree(facts: Facts, station: Device, storage: Device) -> tuple[str, str] | None:
    """The link that a spanning tree blocks, where the road would go over it."""
    closed = {id(blocked.link) for blocked in facts.topology.tree.blocked}
    graph, networks = facts.topology.forwarding, tuple(facts.plan.networks)
    starts = [PortRef(station.name, name) for name in station.ports] if closed else []
    for start, end in product(
        starts, [PortRef(storage.name, name) for name, port in storage.ports.items() if port.serves]
    ):
        for network in networks_between(graph, start, end, networks):
            road = Towards(graph, end, network).from_port(start) or ()
            link = next((edge.link for edge in road if id(edge.link) in closed), None)
            if link is not None:
                lost = network or "its frames"
                return (
                    f"the spanning tree, which is one for all networks, blocks {link.near} to {link.far}, the only "
                    f"link there for {lost}",
                    f"Let every link between {link.near.device} and {link.far.device} carry {lost}, "
                    "so that it does not matter which of them is blocked.",
                )
    return None


def _crossed_networks(facts: Facts, station: Device, storage: Device) -> Misfit | None:
    """A cable one end of which is not in the network of the other, at the seat or the storage first."""
    links = [link for link in facts.topology.links if link.channel is not None]
    links.sort(key=lambda link: not {link.near.device, link.far.device} & {station.name, storage.name})
    misfits = (crossed(link.near, link.far, facts) for link in links)
    return next((misfit for misfit in misfits if misfit is not None), None)


def _dropped_network(facts: Facts, networks: set[str]) -> Misfit | None:
    """A cable one end of which passes a network that the other end does not pass in the same manner."""
    ends = (
        pair
        for link in facts.topology.links
        if link.channel is not None
        for pair in ((link.near, link.far), (link.far, link.near))
    )
    misfits = (dropped(port, other, sorted(networks), facts) for port, other in ends)
    return next((misfit for misfit in misfits if misfit is not None), None)


def _unlinked(facts: Facts, device: Device, ports: list[PortRef], word: str) -> tuple[str, str]:
    cabling = facts.topology.cabling
    for port in ports:
        if port in cabling.dead_ends:
            stop = cabling.dead_ends[port]
            return f"the cables from {port} stop at {stop}", f"Plug a cable into {stop} that leads on."
    for link in (link for port in device.ports for link in facts.links_at.get(PortRef(device.name, port), ())):
        if not link.runs:
            return (
                f"{link.near} and {link.far} have no rate in common",
                "Give them ports or modules with a rate in common.",
            )
    return (
        f"no cable {word} {device.name}" if ports else f"{device.name} has no port for it",
        f"Run a cable from {device.name} to a switch." if ports else f"Give {device.name} a port.",
    )


def _networks(facts: Facts, device: Device) -> set[str]:
    """The networks that the linked ports of a device name."""
    found: set[str] = set()
    for name, port in device.ports.items():
        ref = PortRef(device.name, name)
        if port.serves and ref in facts.topology.forwarding.ways:
            found.update(named(facts.topology.forwarding.carried[ref]))
    return found


def _islands(facts: Facts, device: Device) -> str:
    """A device with what it is plugged into, in words."""
    beyond = {
        edge.in_port.device
        for name in device.ports
        for edge in facts.topology.forwarding.ways.get(PortRef(device.name, name), ())
    }
    return f"{device.name} (plugged into {listed(sorted(beyond))})"


NO_PATH = Rule(
    name="no-path",
    family="paths",
    severity="fail",
    subjects=_planned_paths,
    judge=_judge_road,
    what="A seat that cannot reach a storage it edits from, by any cable, switch, radio or router of the plan.",
    why="The share never appears on that desk.",
    todo="Close the gap that is named: a missing cable, a missing network, or ports that never link.",
)
