"""The storage's ports as seen from here: which of its addresses belong to one port."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from netaudit.model.place import PortRef
from netaudit.model.situation import Situation
from netaudit.model.vocabulary import Address


def port_of(address: Address, situation: Situation) -> PortRef | None:
    """The storage's port that the plan gives an address; None where it gives none, or to several members of a bond."""
    expected = situation.expected
    ports = () if expected is None else tuple(expected.storage_ports.values())
    found = [each.port for each in ports if address in each.addresses]
    return found[0] if found else None


def number_of(address: Address, situation: Situation) -> int | None:
    """The storage's own number of the port that has an address."""
    offers = situation.seen.offers or ()
    return next((offer.number for offer in offers if offer.address == address), None)


def macs_of(address: Address, situation: Situation) -> frozenset[str]:
    """The hardware addresses that answer for an address; none where nobody told, or it lies behind a router."""
    far = situation.address(address)
    if far is None or far.neighbours is None or (far.route is not None and far.route.gateway is not None):
        return frozenset()
    return frozenset(far.neighbours.macs)


def told_apart(one: Address, other: Address, situation: Situation) -> bool | None:
    """Whether plan or storage says that two addresses are on different ports; None where neither does."""
    ports = port_of(one, situation), port_of(other, situation)
    if None not in ports:
        return ports[0] != ports[1]
    numbers = number_of(one, situation), number_of(other, situation)
    return None if None in numbers else numbers[0] != numbers[1]


def on_one_port(one: Address, other: Address, situation: Situation) -> bool | None:
    """Whether two addresses of the storage are on one port of it; None where nothing tells.

    What the plan or the storage says comes first; then one hardware address that alone answers for both; then subnets
    on the link, which differ where the ports do, unless a hardware address says otherwise.
    """
    apart = told_apart(one, other, situation)
    if apart is not None:
        return not apart
    near, far = macs_of(one, situation), macs_of(other, situation)
    if len(near) == len(far) == 1:
        return near == far
    if near and far:
        return None if near & far else False
    return False if _subnets_differ(one, other, situation) else None


def _subnets_differ(one: Address, other: Address, situation: Situation) -> bool:
    """Whether two addresses of one kind lie in different subnets that this machine reaches without a router."""
    routes = [None if far is None else far.route for far in map(situation.address, (one, other))]
    prefixes = [None if route is None or route.gateway is not None else route.prefix for route in routes]
    return one.version == other.version and None not in prefixes and prefixes[0] != prefixes[1]


def grouped(addresses: Sequence[Address], situation: Situation) -> list[list[Address]]:
    """Addresses gathered by the port that they are known to share, in order."""
    groups: list[list[Address]] = []
    for address in addresses:
        home = next((group for group in groups if any(on_one_port(address, each, situation) for each in group)), None)
        if home is None:
            groups.append([address])
        else:
            home.append(address)
    return groups


def surely_apart(groups: Sequence[Sequence[Address]], situation: Situation) -> tuple[Address, Address] | None:
    """Two addresses of different groups that are known to be on different ports; None where all may be one."""
    heads = [group[0] for group in groups]
    pairs = combinations(heads, 2)
    return next((pair for pair in pairs if on_one_port(*pair, situation) is False), None)
