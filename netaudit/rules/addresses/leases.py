"""Rules about leases: do the addresses that are handed out and those that are fixed stay apart."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.model.finding import Judgement
from netaudit.model.place import PortRef, network_place, port_place
from netaudit.model.plan import Bond, Network, Port, Storage
from netaudit.rules.addresses.book import Book, Held, book_of, handed_out
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule


class Fixed(NamedTuple):
    """A fixed address in networks that hand out others."""

    held: Held
    lending: tuple[Network, ...]
    """The networks that it may lie in and that hand out addresses."""
    book: Book


def _fixed(facts: Facts) -> Iterable[Fixed]:
    book = book_of(facts)
    lenders = {network.name: network for network in facts.plan.networks.values() if network.leases is not None}
    for held in book.fixed if lenders else ():
        lending = tuple(lenders[name] for name in held.networks if name in lenders)
        if lending:
            yield Fixed(held, lending, book)


def _judge_in_leases(fixed: Fixed, facts: Facts) -> Judgement:
    held = fixed.held
    for network in fixed.lending:
        if network.leases is not None and handed_out(held.address, network.leases):
            first, last = network.leases
            return ADDRESS_IN_LEASES.finding(
                *dict.fromkeys((*held.places, network_place(network.name))),
                message=f"{held.address} of {held.holder} is among the addresses that {network.name} hands out, "
                f"{first} to {last}",
                remedy=f"Give {held.holder} an address outside of {first} to {last}{_such_as(fixed, network)}, "
                f"or let {network.name} hand out fewer.",
                source=PLAN,
            )
    return None


def _such_as(fixed: Fixed, network: Network) -> str:
    span = next((span for span in fixed.book.spans[network.name] if span.holds(fixed.held.address)), None)
    return "" if span is None else fixed.book.free_like(fixed.held.address, span, (network.name,))


ADDRESS_IN_LEASES = Rule(
    name="address-in-leases",
    family="addresses",
    severity="warn",
    subjects=_fixed,
    judge=_judge_in_leases,
    what="An address that was typed in by hand, and that its network also hands out by itself.",
    why="One day a telephone is given it as well, and the storage vanishes for whoever asks the telephone.",
    todo="Keep fixed addresses outside of the range that is handed out.",
)


class Serving(NamedTuple):
    """A port of a storage that serves files, or a bond of such ports."""

    ref: PortRef
    what: Port | Bond
    members: tuple[PortRef, ...]
    """The ports of a bond; none for a port."""


def _serving(facts: Facts) -> Iterable[Serving]:
    for device in facts.plan.devices.values():
        if not isinstance(device, Storage):
            continue
        for name, port in device.ports.items():
            if _serves(port):
                yield Serving(PortRef(device.name, name), port, ())
        for name, bond in device.bonds.items():
            if any(_serves(device.ports[member]) for member in bond.ports):
                yield Serving(PortRef(device.name, name), bond, tuple(PortRef(device.name, own) for own in bond.ports))


def _serves(port: Port) -> bool:
    return port.serves and port.purpose != "management"


def _judge_on_lease(serving: Serving, facts: Facts) -> Judgement:
    if not serving.what.leased:
        return None
    ref = serving.ref
    return STORAGE_ON_LEASE.finding(
        port_place(ref),
        *map(port_place, serving.members),
        message=f"{ref} serves files on an address that it is lent, and that can be another one after a power cut",
        remedy=f"Type a fixed address into {ref}, outside of the leases, and write it down as `address`; "
        "one that the router reserves for it does as well.",
        source=PLAN,
    )


STORAGE_ON_LEASE = Rule(
    name="storage-on-lease",
    family="addresses",
    severity="warn",
    subjects=_serving,
    judge=_judge_on_lease,
    what="A storage that serves files on an address which the network hands out.",
    why="Desks mount the share by its address. When that changes, yesterday's mount fails on every desk at once.",
    todo="Give the storage a fixed address.",
)
