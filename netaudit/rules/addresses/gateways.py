"""The rule about ways out: does a machine have one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.place import PortRef, device_place, network_place, port_place
from netaudit.model.plan import Device, Network
from netaudit.network.forwarding import bond_of
from netaudit.rules.addresses.book import port_networks
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule


class Exits(NamedTuple):
    """A machine with the networks that lead out of it, each with the first of its ports there."""

    device: str
    ports: dict[str, PortRef]


def _exits(facts: Facts) -> Iterable[Exits]:
    """Every seat and storage that is in a network with a gateway."""
    for device in facts.plan.devices.values():
        if device.role in ("station", "storage"):
            ports: dict[str, PortRef] = {}
            for network, port in _joined(device, facts):
                if facts.plan.networks[network].gateway is not None:
                    ports.setdefault(network, port)
            if ports:
                yield Exits(device.name, ports)


def _joined(device: Device, facts: Facts) -> Iterator[tuple[str, PortRef]]:
    """The networks that the ports of a machine are in, by cable or by radio."""
    bonds = bond_of(device)
    for name, port in device.ports.items():
        ref = PortRef(device.name, name)
        plugged_in = port.connector == "radio" or ref in facts.topology.cabling.cables_at
        if plugged_in and port.purpose != "management":
            for network in port_networks(port, device.bonds.get(bonds.get(name, ""))):
                yield network, ref


def _judge(exits: Exits, facts: Facts) -> Judgement:
    of_version: dict[int, list[Network]] = {}
    for network in (facts.plan.networks[name] for name in exits.ports):
        if network.gateway is not None:
            of_version.setdefault(network.gateway.version, []).append(network)
    ways = max(of_version.values(), key=len)
    return _two(exits, ways) if len(ways) > 1 else None


def _two(exits: Exits, ways: list[Network]) -> Judgement:
    """The finding; what is meant for storage is the one that does without a gateway, or else the later one."""
    ways.sort(key=lambda network: network.purpose == "storage")
    kept, *needless = ways
    ports = [exits.ports[network.name] for network in ways]
    return TWO_GATEWAYS.finding(
        device_place(exits.device),
        *map(port_place, ports),
        *(network_place(network.name) for network in ways),
        message=f"{exits.device} has {len(ways)} ways out, "
        + listed(f"{network.gateway} at {port}" for network, port in zip(ways, ports, strict=True)),
        remedy=f"Leave the router empty at {listed(ports[1:])} and take `gateway` out of "
        f"{listed(network.name for network in needless)}: the way out is through {kept.name}.",
        source=PLAN,
    )


TWO_GATEWAYS = Rule(
    name="two-gateways",
    family="addresses",
    severity="warn",
    subjects=_exits,
    judge=_judge,
    what="A seat or a storage in two networks that both have a gateway.",
    why="It then has two default routes, and the one that wins today may lose after the next restart: answers leave "
    "by another port than the questions came in.",
    todo="Give the storage's network no gateway, and type none into the ports in it.",
)
