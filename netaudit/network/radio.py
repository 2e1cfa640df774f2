"""Radio: which clients may join which access points, kept to a number that fits into memory for any plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import Plan, Port
from netaudit.network.forwarding import FORWARDING_ROLES
from netaudit.network.islands import Islands
from netaudit.network.links import Link, radio_link

MOST_BASES = 64
"""Radios of access points that one client is linked to."""
MOST_LINKS = 200_000
"""Radio links of all clients together, as long as each has at least one."""


class _Radio(NamedTuple):
    """A radio with its place among its like, from 0."""

    place: int
    ref: PortRef
    port: Port


def radio_links(plan: Plan, wired: Iterable[Link]) -> Iterator[Link]:
    """Each radio of a client with the radios of access points that carry a network of it.

    Assumptions, which bound the work: of the radios of one access point that name the same networks, the first by name
    stands for all; and of more than `MOST_BASES` (fewer, where all clients together would pass `MOST_LINKS`) those
    that come first in the plan stand for the rest. They are taken in turn from the parts of the plan that cables hold
    together, so that a storage is only cut off where there are more such parts than that.
    """
    clients = list(_clients(plan))
    bases = _Bases(plan, wired, max(1, min(MOST_BASES, MOST_LINKS // max(1, len(clients)))))
    for client in clients:
        for base in bases.joined(client.port):
            yield radio_link(client.ref, client.port, base.ref, base.port)


class _Bases:
    """The radios of access points, by the networks that they carry."""

    def __init__(self, plan: Plan, wired: Iterable[Link], most: int) -> None:
        self._most = most
        self._every = list(_one_of_each_kind(plan))
        self._keyless = [base for base in self._every if base.port.carries_any]
        self._naming: dict[str, list[_Radio]] = {}
        for base in self._every:
            for network in _named(base.port):
                self._naming.setdefault(network, []).append(base)
        self._parts: Islands[str] = Islands()
        for link in wired:
            if link.runs:
                self._parts.join(link.near.device, link.far.device)
        self._joined: dict[frozenset[str], Sequence[_Radio]] = {}

    def joined(self, client: Port) -> Sequence[_Radio]:
        """Those that a client may join, in file order."""
        wanted = _named(client)
        if wanted not in self._joined:
            naming = (base for network in wanted for base in self._naming.get(network, ()))
            places = {base.place for base in (*self._keyless, *naming)}
            found = [self._every[place] for place in sorted(places)] if wanted else self._every
            self._joined[wanted] = sorted(self._in_turn(found)[: self._most], key=_place)
        return self._joined[wanted]

    def _in_turn(self, found: Sequence[_Radio]) -> Sequence[_Radio]:
        """The first of each part of the plan, then the second of each, and so on."""
        if len(found) <= self._most:
            return found
        seen: Counter[str] = Counter()
        turns: dict[int, int] = {}
        for base in found:
            part = self._parts.of(base.ref.device)
            turns[base.place] = seen[part]
            seen[part] += 1
        return sorted(found, key=lambda base: (turns[base.place], base.place))


def _place(radio: _Radio) -> int:
    return radio.place


def _clients(plan: Plan) -> Iterator[_Radio]:
    for device in plan.devices.values():
        if device.role not in FORWARDING_ROLES and not device.passive:
            for place, (name, port) in enumerate(device.ports.items()):
                if port.connector == "radio":
                    yield _Radio(place, PortRef(device.name, name), port)


def _one_of_each_kind(plan: Plan) -> Iterator[_Radio]:
    """Of each access point one radio for each set of networks that it carries."""
    place = 0
    for device in plan.devices.values():
        if device.role not in FORWARDING_ROLES:
            continue
        kinds: dict[frozenset[str], str] = {}
        for name, port in device.ports.items():
            if port.connector == "radio":
                kind = _named(port)
                kinds[kind] = min(name, kinds.get(kind, name))
        for name in kinds.values():
            yield _Radio(place, PortRef(device.name, name), device.ports[name])
            place += 1


def _named(port: Port) -> frozenset[str]:
    return frozenset((*port.tagged, *((port.untagged,) if port.untagged is not None else ())))
