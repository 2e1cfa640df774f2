"""The election: given the root, the port by which each switch reaches it, by IEEE 802.1D's tie-breaks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from heapq import heappop, heappush
from itertools import groupby
from typing import NamedTuple

from netaudit.network.links import Link

_UNKNOWN_COST = 1
"""Stands for a cost that is unknown: on a link outside all rings it is added to every way alike."""


class BridgeId(NamedTuple):
    """By what switches are told apart; the lower one wins."""

    priority: int
    mac: str | None
    """None is unknown."""


class Wire(NamedTuple):
    """A link between two switches that run a spanning tree."""

    number: int
    link: Link
    near: int
    """Number of the switch at its one end."""
    far: int
    near_port: int
    """Number of the port there, which is its position in the plan."""
    far_port: int
    cost: int | None
    """Path cost; None is unknown."""
    bond_cost: int | None
    """The same where the members of a bond are counted together."""


class Outcome(NamedTuple):
    """The links that frames pass, by number: those that lead to a root port."""

    sure: frozenset[int]
    maybe: frozenset[int]
    """Those of which one is a root port, and unknown addresses decide which."""


class _Way(NamedTuple):
    """A way by which a switch may reach the root; of equal cost the lower sender wins, then the lower ports."""

    sender: int
    sender_port: int
    own_port: int
    number: int


def possible_roots(ids: Mapping[int, BridgeId]) -> Sequence[int]:
    """The switches that may have the lowest identity: one, unless addresses that decide are unknown or equal."""
    lowest = min(identity.priority for identity in ids.values())
    rivals = {bridge: identity.mac for bridge, identity in ids.items() if identity.priority == lowest}
    known = [mac for mac in rivals.values() if mac is not None]
    first = min(known, default=None)
    return [bridge for bridge, mac in rivals.items() if mac is None or mac == first]


def elect(wires: Sequence[Wire], ids: Mapping[int, BridgeId], root: int) -> Outcome:
    """The root port of each switch.

    Root port: least path cost, then lowest sending switch, lowest sending port, lowest own port. A link that leads to
    no root port is blocked at one of its ends.
    """
    ways: dict[int, list[tuple[int, _Way]]] = {}
    for wire in wires:
        cost = _UNKNOWN_COST if wire.cost is None else wire.cost
        ways.setdefault(wire.near, []).append((cost, _Way(wire.far, wire.far_port, wire.near_port, wire.number)))
        ways.setdefault(wire.far, []).append((cost, _Way(wire.near, wire.near_port, wire.far_port, wire.number)))
    cost_of = _path_costs(ways, root)
    sure: set[int] = set()
    maybe: set[int] = set()
    for bridge, own in ways.items():
        if bridge != root:
            best = _lowest([way for cost, way in own if cost_of[way.sender] + cost == cost_of[bridge]], ids)
            (sure if len(best) == 1 else maybe).update(way.number for way in best)
    return Outcome(frozenset(sure), frozenset(maybe - sure))


def _path_costs(ways: Mapping[int, Sequence[tuple[int, _Way]]], root: int) -> Mapping[int, int]:
    """Least cost from each switch to the root."""
    found: dict[int, int] = {}
    heap = [(0, root)]
    while heap:
        cost, bridge = heappop(heap)
        if bridge in found:
            continue
        found[bridge] = cost
        for own, way in ways.get(bridge, ()):
            if way.sender not in found:
                heappush(heap, (cost + own, way.sender))
    return found


def _lowest(ways: Iterable[_Way], ids: Mapping[int, BridgeId]) -> Sequence[_Way]:
    """The best of several ways of equal cost; those that may be where unknown addresses decide."""
    best = [next(group) for _, group in groupby(sorted(ways), key=lambda way: way.sender)]
    senders = possible_roots({way.sender: ids[way.sender] for way in best})
    return [way for way in best if way.sender in senders]
