"""The ends at which a storage is plugged in: ports and bonds, with their rates and the subnets they are in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import Address, Port, Storage
from netaudit.network.forwarding import bond_of
from netaudit.rules.addresses.book import Book, bond_networks, book_of, port_networks
from netaudit.rules.facts import Facts
from netaudit.standards.phys import phys


class End(NamedTuple):
    """A cabled port of a storage, or a bond with such ports; never one for management."""

    ref: PortRef
    ports: tuple[PortRef, ...]
    """The cabled ports: itself, or a bond's members."""
    best_bit_per_s: int | None
    """Highest rate that its slowest port could run [bit/s]; None if unknown."""
    runs_bit_per_s: int | None
    """Rate that it agrees on with the far end, or else the best [bit/s]; a conversation uses one member of a bond."""
    lies_in: tuple[str, ...]
    """Subnets that it is in; the network where that names none."""
    tagged: bool
    """Whether it carries any network tagged."""
    node: str | None = None
    """Node of a cluster that it belongs to."""


def storages(facts: Facts) -> Iterator[Storage]:
    """The storages of a plan."""
    return (device for device in facts.plan.devices.values() if isinstance(device, Storage))


def ends_of(storage: Storage, facts: Facts) -> Sequence[End]:
    """The ends of a storage, in file order of their first ports."""
    book, bonds = book_of(facts), bond_of(storage)
    members: dict[str, list[PortRef]] = {}
    for name, port in storage.ports.items():
        ref = PortRef(storage.name, name)
        if port.purpose != "management" and ref in facts.topology.cabling.cables_at:
            members.setdefault(bonds.get(name, name), []).append(ref)
    node_of = {port: node for node, ports in storage.nodes.items() for port in ports}
    ends = (_end(storage, name, tuple(ports), facts, book) for name, ports in members.items())
    return [end._replace(node=_node(end, node_of)) for end in ends]


def _node(end: End, node_of: Mapping[str, str]) -> str | None:
    named = (end.ref.port, *(port.port for port in end.ports))
    return next((node_of[name] for name in named if name in node_of), None)


def conflicting(ends: Sequence[End]) -> Iterator[Sequence[End]]:
    """The groups of two or more ends of one machine: all, unless each is of some node, and then those of each node."""
    nodes: dict[str | None, list[End]] = {}
    for end in ends:
        nodes.setdefault(end.node, []).append(end)
    groups = [ends] if None in nodes else list(nodes.values())
    yield from (group for group in groups if len(group) > 1)


def _end(storage: Storage, name: str, ports: tuple[PortRef, ...], facts: Facts, book: Book) -> End:
    bond = storage.bonds.get(name) if ports[0].port != name else None
    own = storage.ports[ports[0].port]
    networks = port_networks(own) if bond is None else bond_networks(storage, bond)
    addresses = own.addresses if bond is None else bond.addresses
    agreed = [_agreed(ref, facts) for ref in ports]
    best = [_best(storage.ports[ref.port]) or rate for ref, rate in zip(ports, agreed, strict=True)]
    runs = [rate or most for rate, most in zip(agreed, best, strict=True)]
    return End(
        ref=PortRef(storage.name, name),
        ports=ports,
        best_bit_per_s=_least(best),
        runs_bit_per_s=_least(runs),
        lies_in=_subnets(addresses, networks, book),
        tagged=any(storage.ports[ref.port].tagged for ref in ports),
    )


def _best(port: Port) -> int | None:
    """The highest rate of a port with its module [bit/s]; None is unknown."""
    if port.module is not None:
        return phys()[port.module].rate_bit_per_s
    return None if port.rates is None else port.rates.bit_per_s[0]


def _agreed(port: PortRef, facts: Facts) -> int | None:
    return next((edge.link.agreed_bit_per_s for edge in facts.topology.forwarding.ways.get(port, ())), None)


def _least(rates: Sequence[int | None]) -> int | None:
    known = [rate for rate in rates if rate is not None]
    return min(known) if len(known) == len(rates) else None


def _subnets(addresses: Sequence[Address], networks: tuple[str, ...], book: Book) -> tuple[str, ...]:
    """The subnets that addresses lie in, or else the first subnet of each network, or its name."""
    found = dict.fromkeys(str(span) for _, span in filter(None, map(book.at, addresses)))
    if found:
        return tuple(found)
    return tuple(str(spans[0]) if (spans := book.spans[name]) else name for name in networks)
