"""Plans made of the values themselves: each thing is one call that names what a test cares about."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from ipaddress import ip_address, ip_network
from itertools import pairwise
from typing import Any

from netaudit.model.place import PortRef
from netaudit.model.plan import Cable, Category, Device, Network, Plan, Port, Rates, Role, Station, Storage, Switch
from netaudit.network.links import Link
from netaudit.network.topology import Topology, build_topology

G = 1_000_000_000
UP_TO_10G = Rates((10 * G, 5 * G, 2_500_000_000, G, 100_000_000), up_to=True)
"""What `up to 10G` stands for: every rate of twisted pair from 100 Mb/s."""


def ref(text: str) -> PortRef:
    """The port that `device/port` names."""
    device, _, port = text.partition("/")
    return PortRef(device, port)


def rates(*gigabits: float) -> Rates:
    """A list of rates [Gb/s], the highest first."""
    return Rates(tuple(round(each * G) for each in gigabits))


def jack(*gigabits: float, **fields: Any) -> Port:
    """A port for twisted pair: up to 10 Gb/s, or just the rates that are named [Gb/s]."""
    return Port(connector="rj45", rates=rates(*gigabits) if gigabits else UP_TO_10G, **fields)


def cage(*gigabits: float, **fields: Any) -> Port:
    """A cage: 10 and 1 Gb/s, or just the rates that are named [Gb/s]."""
    return Port(connector="sfp+", rates=rates(*(gigabits or (10, 1))), **fields)


def aerial(*gigabits: float, **fields: Any) -> Port:
    """A radio, of unknown rate unless one is named [Gb/s]."""
    return Port(connector="radio", rates=rates(*gigabits) if gigabits else None, **fields)


def many(count: int, port: Port) -> dict[str, Port]:
    """Ports 1 to `count`, all alike."""
    return {str(number): port for number in range(1, count + 1)}


def seat(name: str, ports: Mapping[str, Port] | None = None, **fields: Any) -> Station:
    """An edit station, with one jack called wire unless its ports are given."""
    return Station(name=name, role="station", ports={"wire": jack()} if ports is None else ports, **fields)


def vault(name: str = "vault", ports: Mapping[str, Port] | None = None, **fields: Any) -> Storage:
    """A storage, with one jack called fast unless its ports are given."""
    return Storage(name=name, role="storage", ports={"fast": jack()} if ports is None else ports, **fields)


def switch(name: str, ports: Mapping[str, Port] | int = 8, **fields: Any) -> Switch:
    """A switch; a number stands for so many jacks without a network."""
    return Switch(name=name, role="switch", ports=many(ports, jack()) if isinstance(ports, int) else ports, **fields)


def panel(name: str, count: int = 4, **fields: Any) -> Device:
    """A panel whose ports are alike."""
    return Device(name=name, role="panel", ports=many(count, Port(connector="rj45", **fields)))


def device(name: str, role: Role, ports: Mapping[str, Port], **fields: Any) -> Device:
    """Any other device."""
    return Device(name=name, role=role, ports=ports, **fields)


def cable(
    name: str,
    near: str,
    far: str | Sequence[str],
    category: Category = "6A",
    length_m: float | None = 10.0,
    **fields: Any,
) -> Cable:
    """A cable between two ports, or a breakout to several; category 6A and 10 m unless that is what matters."""
    far_ends = (far,) if isinstance(far, str) else far
    return Cable(
        name=name,
        from_port=ref(near),
        to_ports=tuple(ref(end) for end in far_ends),
        category=category,
        length_m=length_m,
        **fields,
    )


def network(name: str, subnet: str | None = None, gateway: str | None = None, **fields: Any) -> Network:
    """A network."""
    return Network(
        name=name,
        subnets=() if subnet is None else (ip_network(subnet),),
        gateway=None if gateway is None else ip_address(gateway),
        **fields,
    )


def wired(*things: Device | Cable | Network, **fields: Any) -> Plan:
    """The plan of some networks, devices and cables, each kind in the order given."""

    def named(kind: type) -> dict[str, Any]:
        return {thing.name: thing for thing in things if isinstance(thing, kind)}

    return Plan(file="room.yaml", networks=named(Network), devices=named(Device), cables=named(Cable), **fields)


def topology_of(*things: Device | Cable | Network, **fields: Any) -> Topology:
    """What follows from the plan of those things."""
    return build_topology(wired(*things, **fields))


def only_link(*things: Device | Cable | Network, **fields: Any) -> Link:
    """The one link of a plan that has one."""
    (link,) = topology_of(*things, **fields).links
    return link


def chain(names: Sequence[str], near: int = 1, far: int = 2) -> list[Cable]:
    """Cables that join switches in a row: port `far` of each to port `near` of the next."""
    return [cable(f"{one}-{other}", f"{one}/{far}", f"{other}/{near}") for one, other in pairwise(names)]


def pairs(topology: Topology) -> list[tuple[str, str]]:
    """The two ends of each path that leads anywhere, the planned one of each seat and storage first."""
    return [(str(path.from_port), str(path.to_port)) for path in topology.paths if path.hops]
