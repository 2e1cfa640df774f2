"""Rules about single addresses: is each held once, and may a port have it at all."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from netaudit.citation import PLAN, Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.plan import Address
from netaudit.rules.addresses.book import Book, Held, Span, book_of
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.standards.internet import SPECIAL_ADDRESSES, SUBNET_ENDS, VERSION_6_ADDRESSES, reserved_blocks

GATEWAY_ROLES = frozenset({"router", "internet"})
"""Roles that may hold the gateway address of a network."""


class Shared(NamedTuple):
    """An address with everything that holds it."""

    address: Address
    holders: tuple[Held, ...]
    """In file order."""
    gateways: tuple[Held, ...]
    """The networks that take it for their gateway."""
    book: Book


def _shared(facts: Facts) -> Iterable[Shared]:
    """Every address that is held; one that counts on its own wire only is another one in each network."""
    book = book_of(facts)
    holders: dict[tuple[object, ...], dict[str, Held]] = {}
    for held in book.held:
        holders.setdefault(_key(held), {}).setdefault(held.holder, held)
    gateways: dict[tuple[object, ...], list[Held]] = {}
    for gateway in book.gateways:
        gateways.setdefault(_key(gateway), []).append(gateway)
    for key, found in holders.items():
        each = tuple(found.values())
        yield Shared(each[0].address, each, tuple(gateways.get(key, ())), book)


def _key(held: Held) -> tuple[object, ...]:
    return (held.address.version, int(held.address), *(held.networks[:1] if held.link_local else ()))


def _judge_clash(shared: Shared, facts: Facts) -> Judgement:
    last = _to_be_changed(shared, facts)
    others = [each for each in shared.holders if each is not last]
    if others:
        return ADDRESS_CLASH.finding(
            *last.places,
            *(place for other in others for place in other.places),
            message=f"{shared.address} is given to {listed(each.holder for each in shared.holders)}, "
            "and an address can be in one place only",
            remedy=f"Give {last.holder} another address{_another(last, shared.book)}.",
            source=PLAN,
        )
    device = facts.plan.devices[last.device or ""]
    if shared.gateways and device.role not in GATEWAY_ROLES:
        return ADDRESS_CLASH.finding(
            *last.places,
            *shared.gateways[0].places,
            message=f"{shared.address} is {shared.gateways[0].holder}, and {last.holder}, which is of role "
            f"{device.role} and no router, has it",
            remedy=f"Give {last.holder} another address{_another(last, shared.book)}; "
            f"or, if {device.name} does lead out of the network, give it `role: router`.",
            source=PLAN,
        )
    return None


def _to_be_changed(shared: Shared, facts: Facts) -> Held:
    """The last holder that is no storage, since desks mount the address of a storage; or else the last."""
    latest_first = shared.holders[::-1]
    movable = (each for each in latest_first if facts.plan.devices[each.device or ""].role != "storage")
    return next(movable, latest_first[0])


def _another(held: Held, book: Book) -> str:
    """A free address in the subnet that an address lies in, as the end of a remedy; empty if none is known."""
    span = next((span for span in book.spans_for(held) if span.holds(held.address)), None)
    return "" if span is None else book.free_like(held.address, span, held.networks)


ADDRESS_CLASH = Rule(
    name="address-clash",
    family="addresses",
    severity="fail",
    subjects=_shared,
    judge=_judge_clash,
    what="One address that two ports, bonds or virtual addresses hold, or that is a network's gateway and held by "
    "something that is no router.",
    why="Whichever answers first gets the packets: the share drops every few minutes and comes back by itself.",
    todo="Keep one list of all addresses, and give each to one port.",
)


class _Housed(NamedTuple):
    """A fixed address with the subnets of its networks."""

    held: Held
    spans: tuple[Span, ...]
    book: Book


def _housed(facts: Facts) -> Iterable[_Housed]:
    book = book_of(facts)
    return (_Housed(held, book.spans_for(held), book) for held in book.fixed)


def _judge_reserved(housed: _Housed, facts: Facts) -> Judgement:
    held = housed.held
    number = int(held.address)
    kept = next((span for span in housed.spans if span.keeps_back(number)), None)
    if kept is not None:
        which = "first" if number == kept.first else "last"
        use = "which names the subnet itself" if which == "first" else "which speaks to everyone in it"
        return _reserved(housed, kept, f"the {which} of {kept}, {use}", SUBNET_ENDS)
    block = next((block for block in reserved_blocks() if block.holds(held.address)), None)
    return None if block is None else _reserved(housed, next(iter(housed.spans), None), block.meaning, block.source)


def _reserved(housed: _Housed, span: Span | None, meaning: str, source: Citation) -> Judgement:
    held = housed.held
    such_as = "" if span is None else housed.book.free_like(held.address, span, held.networks)
    return ADDRESS_RESERVED.finding(
        *held.places,
        message=f"{held.address} of {held.holder} is {meaning}: no port can have it",
        remedy=f"Give {held.holder} another address{such_as}.",
        source=source,
    )


ADDRESS_RESERVED = Rule(
    name="address-reserved",
    family="addresses",
    severity="fail",
    subjects=_housed,
    judge=_judge_reserved,
    what="An address that stands for something else than one port: the first or last of its subnet, loopback, "
    "multicast, or kept back.",
    why="Systems refuse it, or take every packet to it for something else, and the share is never found.",
    todo="Take an address between the first and the last of the subnet.",
    sources=lambda: (SUBNET_ENDS, SPECIAL_ADDRESSES, VERSION_6_ADDRESSES),
)
