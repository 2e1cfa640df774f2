"""Rules about subnets: does every address lie in one of its network's, and does each network have its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.listing import either, listed
from netaudit.model.finding import Judgement
from netaudit.model.place import Place, network_place
from netaudit.model.plan import Address
from netaudit.rules.addresses.book import Book, Held, Span, book_of
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.standards.internet import ON_LINK_TEST


class Placing(NamedTuple):
    """Addresses that must lie in one subnet of their networks: one that is held, or both ends of the leases."""

    what: str
    """What has them, for a message."""
    places: tuple[Place, ...]
    addresses: tuple[Address, ...]
    networks: tuple[str, ...]
    spans: tuple[Span, ...]
    """The subnets of those networks that are of its kind of address."""
    book: Book

    @property
    def fits(self) -> bool:
        """Whether one subnet holds them all."""
        return any(all(span.holds(address) for address in self.addresses) for span in self.spans)

    @property
    def unsized(self) -> str | None:
        """The first of its networks that names no subnet of its kind of address, where that leaves it open."""
        if self.fits:
            return None
        version = self.addresses[0].version
        spans = self.book.spans
        return next((name for name in self.networks if all(span.version != version for span in spans[name])), None)


def _placed(held: Held, book: Book) -> Placing:
    return Placing(held.holder, held.places, (held.address,), held.networks, book.spans_for(held), book)


def _leased(facts: Facts, book: Book) -> Iterator[Placing]:
    for network in facts.plan.networks.values():
        if network.leases is not None:
            spans, what = book.spans[network.name], f"the leases of {network.name}"
            yield Placing(what, (network_place(network.name),), network.leases, (network.name,), spans, book)


def _once_unsized(placings: Iterable[Placing]) -> Iterator[Placing]:
    """Those whose networks name their subnets, and the first of each kind of address for a network that does not."""
    told: set[tuple[str, int]] = set()
    for placing in placings:
        unsized = placing.unsized
        if unsized is not None:
            key = (unsized, placing.addresses[0].version)
            if key in told:
                continue
            told.add(key)
        yield placing


def _placings(facts: Facts) -> Iterable[Placing]:
    book = book_of(facts)
    held = (_placed(each, book) for each in book.held if each.networks and not each.link_local)
    return _once_unsized((*held, *_leased(facts, book)))


def _gateways(facts: Facts) -> Iterable[Placing]:
    book = book_of(facts)
    return (_placed(gateway, book) for gateway in book.gateways if not gateway.link_local)


def _missing_subnet(rule: Rule[Placing, Facts], placing: Placing, network: str) -> Judgement:
    version = placing.addresses[0].version
    kind = "" if version == 4 else "version 6 "
    return rule.not_checked(
        network_place(network),
        reason=f"The {kind}subnet of {network} is not given",
        decides=f"write down `subnet` of {network}: {placing.addresses[0]} must lie in it",
    )


def _judge_outside(placing: Placing, facts: Facts) -> Judgement:
    unsized = placing.unsized
    if unsized is not None:
        return _missing_subnet(ADDRESS_OUTSIDE_SUBNET, placing, unsized)
    if placing.fits:
        return None
    subnets = f"{either(placing.spans)}, the subnet of {listed(placing.networks)}"
    if len(placing.addresses) > 1:
        message = f"{placing.what} run from {' to '.join(map(str, placing.addresses))}, which is not all in {subnets}"
        remedy = f"Let {placing.what} begin and end within {either(placing.spans)}."
    else:
        message = f"{placing.addresses[0]} of {placing.what} is not in {subnets}"
        remedy = f"Give {placing.what} an address in {placing.spans[0]}{_such_as(placing)}{_elsewhere(placing)}."
    return ADDRESS_OUTSIDE_SUBNET.finding(*placing.places, message=message, remedy=remedy, source=ON_LINK_TEST)


def _such_as(placing: Placing) -> str:
    return placing.book.free_like(placing.addresses[0], placing.spans[0], placing.networks)


def _elsewhere(placing: Placing) -> str:
    """The network that the address does lie in, as the other way out; empty if there is none."""
    found = placing.book.at(placing.addresses[0])
    return "" if found is None else f", or put it into {found[0]}, whose subnet {found[1]} is"


ADDRESS_OUTSIDE_SUBNET = Rule(
    name="address-outside-subnet",
    family="addresses",
    severity="fail",
    subjects=_placings,
    judge=_judge_outside,
    what="An address, or a range of leases, that is in no subnet of its network.",
    why="The others look for it behind a router instead of on the wire, and do not find it.",
    todo="Take an address in the network's subnet, or correct the subnet.",
    sources=lambda: (ON_LINK_TEST,),
)


def _judge_gateway(placing: Placing, facts: Facts) -> Judgement:
    unsized = placing.unsized
    if unsized is not None:
        return _missing_subnet(GATEWAY_OUTSIDE_SUBNET, placing, unsized)
    if placing.fits:
        return None
    (name,) = placing.networks
    return GATEWAY_OUTSIDE_SUBNET.finding(
        *placing.places,
        message=f"{placing.addresses[0]}, {placing.what}, is not in its subnet {either(placing.spans)}",
        remedy=f"Write the address that the router has in {either(placing.spans)}, "
        f"or leave `gateway` out if nothing leads out of {name}.",
        source=ON_LINK_TEST,
    )


GATEWAY_OUTSIDE_SUBNET = Rule(
    name="gateway-outside-subnet",
    family="addresses",
    severity="fail",
    subjects=_gateways,
    judge=_judge_gateway,
    what="A gateway that is in no subnet of the network that it leads out of.",
    why="A machine reaches its gateway on the wire or not at all, so nothing gets out of that network.",
    todo="Give the network the address that its router has in it.",
    sources=lambda: (ON_LINK_TEST,),
)


class Overlap(NamedTuple):
    """A network, and one before it in the plan with which it shares addresses."""

    network: str
    own: Span | None
    other: str | None
    """None where it shares none."""
    theirs: Span | None


def _overlaps(facts: Facts) -> Iterable[Overlap]:
    """Each network that names subnets, with the widest subnet of another one that overlaps with one of its own."""
    book = book_of(facts)
    met = {name: Overlap(name, None, None, None) for name, spans in book.spans.items() if spans}
    order = {name: place for place, name in enumerate(met)}
    for one, other in _nested(book):
        later, earlier = sorted((one, other), key=lambda owned: order[owned[0]], reverse=True)
        if met[later[0]].other is None:
            met[later[0]] = Overlap(*later, *earlier)
    return met.values()


def _nested(book: Book) -> Iterator[tuple[tuple[str, Span], tuple[str, Span]]]:
    """Each subnet with the widest that holds it, of another network: subnets overlap only where one holds the other.

    Sorted by their first address, wider ones first, so that what holds a subnet has come before it. A subnet whose
    widest holder is of its own network adds nothing: whatever else holds it lies in that holder as well.
    """
    owned = [(name, span) for name, spans in book.spans.items() for span in spans]
    owned.sort(key=lambda one: (one[1].version, one[1].first, -one[1].last))
    widest: tuple[str, Span] | None = None
    for name, span in owned:
        if widest is None or not widest[1].holds(span.subnet.network_address):
            widest = (name, span)
        elif widest[0] != name:
            yield (name, span), widest


def _judge_overlap(overlap: Overlap, facts: Facts) -> Judgement:
    if overlap.other is None:
        return None
    return SUBNETS_OVERLAP.finding(
        network_place(overlap.network),
        network_place(overlap.other),
        message=f"{overlap.own} of {overlap.network} and {overlap.theirs} of {overlap.other} share addresses",
        remedy=f"Give {overlap.network} a subnet that no other network has, also none beyond your router or VPN.",
        source=PLAN,
    )


SUBNETS_OVERLAP = Rule(
    name="subnets-overlap",
    family="addresses",
    severity="fail",
    subjects=_overlaps,
    judge=_judge_overlap,
    what="Two networks whose subnets share addresses.",
    why="A machine in both cannot tell which way leads to such an address, and takes the slow one as readily.",
    todo="Give every network a subnet of its own.",
)
