"""The address book of a plan: who holds which address, and which subnet it lies in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from ipaddress import ip_network
from itertools import islice
from typing import NamedTuple

from netaudit.model.place import Place, PortRef, device_place, network_place, port_place
from netaudit.model.plan import Address, Bond, Device, Plan, Port, Storage, Subnet
from netaudit.network.forwarding import bond_of
from netaudit.rules.addresses.once import once
from netaudit.rules.facts import Facts

MOST_TRIED = 512
"""Addresses that are looked at for a free one, so that a crowded plan costs no more than a large one."""
PAIR_PREFIX = 31
"""Length of the prefix from which on there is no first and last address to keep back [bits]: RFC 3021."""

PRIVATE = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "fd00::/8")
"""Blocks that anybody may use at home: IETF RFC 1918, section 3, and RFC 4193, section 3.1."""


class Span(NamedTuple):
    """A subnet as numbers, which compare faster than addresses do."""

    subnet: Subnet
    version: int
    first: int
    last: int

    def __str__(self) -> str:
        return str(self.subnet)

    def holds(self, address: Address) -> bool:
        """Whether an address lies in it."""
        return self.version == address.version and self.first <= int(address) <= self.last

    def overlaps(self, other: Span) -> bool:
        """Whether it shares addresses with another one."""
        return self.version == other.version and self.first <= other.last and other.first <= self.last

    def keeps_back(self, number: int) -> bool:
        """Whether a number in it is its first or last address, which no port may have unless there are but two."""
        return number in (self.first, self.last) and self.version == 4 and self.subnet.prefixlen < PAIR_PREFIX


class Held(NamedTuple):
    """A fixed address, and what holds it."""

    address: Address
    networks: tuple[str, ...]
    """Networks that it may lie in, the untagged one first; empty if none is named."""
    places: tuple[Place, ...]
    """What holds it; a bond's members after the bond."""
    holder: str
    """The same for a message."""
    device: str | None
    """Device that holds it; None for a gateway, which the plan only names."""

    @property
    def link_local(self) -> bool:
        """Whether it counts on its own wire only, as version 6 has them on every port."""
        return self.address.version == 6 and self.address.is_link_local


class Book:
    """The addresses and subnets of a plan; its ports are gone through when their addresses are first asked for."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self.gateways = tuple(_gateways(plan))
        """The gateway of every network that has one."""
        self.spans: Mapping[str, tuple[Span, ...]] = {
            network.name: tuple(_span(subnet) for subnet in network.subnets) for network in plan.networks.values()
        }
        """Each network to its subnets."""

    @cached_property
    def held(self) -> tuple[Held, ...]:
        """Every address of a port, a bond or a cluster, in file order."""
        return tuple(_held(self._plan))

    @cached_property
    def used(self) -> frozenset[tuple[int, int]]:
        """Version and number of every address that is held."""
        return frozenset((held.address.version, int(held.address)) for held in (*self.held, *self.gateways))

    @property
    def fixed(self) -> Iterator[Held]:
        """Every fixed address once: those held, then the gateways that no device of the plan holds."""
        yield from self.held
        held = {(each.address.version, int(each.address)) for each in self.held}
        yield from (each for each in self.gateways if (each.address.version, int(each.address)) not in held)

    def spans_for(self, held: Held) -> tuple[Span, ...]:
        """The subnets of its networks that are of its kind of address."""
        version = held.address.version
        return tuple(span for name in held.networks for span in self.spans[name] if span.version == version)

    def at(self, address: Address) -> tuple[str, Span] | None:
        """The network and the smallest subnet in which an address lies; None if it lies in none."""
        number = int(address)
        for size in self._sizes.get(address.version, ()):
            found = self._starts.get((address.version, size, number - number % size))
            if found is not None:
                return found
        return None

    @cached_property
    def _starts(self) -> Mapping[tuple[int, int, int], tuple[str, Span]]:
        """Version, size and first number of each subnet to its network, the first in the plan."""
        starts: dict[tuple[int, int, int], tuple[str, Span]] = {}
        for name, spans in self.spans.items():
            for span in spans:
                starts.setdefault((span.version, span.last - span.first + 1, span.first), (name, span))
        return starts

    @cached_property
    def _sizes(self) -> Mapping[int, list[int]]:
        """Sizes of the subnets of each version, the smallest first."""
        return {version: sorted({size for kind, size, _ in self._starts if kind == version}) for version in (4, 6)}

    def free_like(self, address: Address, span: Span, networks: tuple[str, ...]) -> str:
        """A free address of a subnet as the end of a remedy, `, such as 10.44.20.12`; empty if none is near.

        It has the same place in the subnet, or the next that is free.
        """
        size = span.last - span.first + 1
        leases = [lent for name in networks if (lent := self._plan.networks[name].leases) is not None]
        for step in range(min(size, MOST_TRIED)):
            number = span.first + (int(address) + step) % size
            if (span.version, number) not in self.used and not span.keeps_back(number):
                free = type(span.subnet.network_address)(number)
                if not any(handed_out(free, lent) for lent in leases):
                    return f", such as {free}"
        return ""

    def free_subnets(self, subnet: str, count: int) -> tuple[str, ...]:
        """So many subnets of the size of one of the plan, after it, that overlap none; empty if there are too few."""
        taken = [span for spans in self.spans.values() for span in spans]
        like = next((span for span in taken if str(span) == subnet), None)
        return () if like is None else tuple(islice(_free_after(like, taken), count))


def _free_after(like: Span, taken: Sequence[Span]) -> Iterator[str]:
    """The free subnets among the next ones of the block for private use that one lies in; none for any other."""
    blocks = (_span(ip_network(block)) for block in PRIVATE)
    kept = next((block for block in blocks if block.holds(like.subnet.network_address)), like)
    size, length = like.last - like.first + 1, like.subnet.prefixlen
    for number in range(like.first + size, min(kept.last, like.first + size * MOST_TRIED), size):
        span = _span(type(like.subnet)((number, length)))
        if not any(map(span.overlaps, taken)):
            yield str(span)


@once
def book_of(facts: Facts) -> Book:
    """The address book of the plan that facts are about."""
    return Book(facts.plan)


def handed_out(address: Address, leases: tuple[Address, Address]) -> bool:
    """Whether an address is one that a network hands out."""
    first, last = leases
    return first.version == address.version and int(first) <= int(address) <= int(last)


def bond_networks(device: Device, bond: Bond) -> tuple[str, ...]:
    """The networks of a bond, the untagged one first: its own, else those of its ports."""
    ports = [device.ports[name] for name in bond.ports]
    untagged = (bond.untagged, *(port.untagged for port in ports))
    tagged = (name for port in ports for name in port.tagged)
    return tuple(dict.fromkeys((*[name for name in untagged if name is not None][:1], *tagged)))


def port_networks(port: Port, bond: Bond | None = None) -> tuple[str, ...]:
    """The networks of a port, the untagged one first; a member's is its bond's where it names none."""
    untagged = port.untagged or (None if bond is None else bond.untagged)
    return port.tagged if untagged is None else (untagged, *port.tagged)


def _span(subnet: Subnet) -> Span:
    return Span(subnet, subnet.version, int(subnet.network_address), int(subnet.broadcast_address))


def _held(plan: Plan) -> Iterator[Held]:
    for device in plan.devices.values():
        if device.passive:
            continue
        bonds = bond_of(device)
        for name, port in device.ports.items():
            for address in port.addresses:
                ref = PortRef(device.name, name)
                networks = port_networks(port, device.bonds.get(bonds.get(name, "")))
                yield Held(address, networks, (port_place(ref),), str(ref), device.name)
        for name, bond in device.bonds.items():
            refs = [PortRef(device.name, own) for own in (name, *bond.ports)]
            for address in bond.addresses:
                places = tuple(port_place(ref) for ref in refs)
                yield Held(address, bond_networks(device, bond), places, str(refs[0]), device.name)
        if isinstance(device, Storage):
            for network, address in device.virtual.items():
                holder = f"the virtual address of {device.name} in {network}"
                yield Held(address, (network,), (device_place(device.name),), holder, device.name)


def _gateways(plan: Plan) -> Iterator[Held]:
    for network in plan.networks.values():
        if network.gateway is not None:
            place, holder = network_place(network.name), f"the gateway of {network.name}"
            yield Held(network.gateway, (network.name,), (place,), holder, None)
