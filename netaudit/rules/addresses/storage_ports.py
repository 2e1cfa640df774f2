"""Rules about several ports of one storage: does each stand in a network of its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import Place, device_place, port_place
from netaudit.network.islands import Islands
from netaudit.rules.addresses.crowds import Crowd, crowds, differ, step_for_equal, step_for_unequal
from netaudit.rules.addresses.storage_ends import End, conflicting, ends_of, storages
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.standards.internet import ANY_PORT_ANSWERS
from netaudit.units import both_rates_text


def _sources() -> tuple[Citation, ...]:
    return (ANY_PORT_ANSWERS,)


def _judge_unequal(crowd: Crowd, facts: Facts) -> Judgement:
    rated = crowd.rated
    if not differ(rated):
        return None if crowd.settled else _unknown_rate(crowd)
    (slow_bit_per_s, slow), (fast_bit_per_s, fast) = rated[0], rated[-1]
    return TWO_PORTS_ONE_NETWORK.finding(
        *_places([slow, *(end for end in crowd.ends if end != slow)]),
        message=f"{listed(f'{end.ref} at {both_rates_text(rate)}' for rate, end in rated)} are in the same subnet, "
        f"{crowd.within}",
        remedy=step_for_unequal(crowd, slow, fast, facts),
        source=ANY_PORT_ANSWERS,
        measured=Measure(slow_bit_per_s, "bit/s"),
        limit=Measure(fast_bit_per_s, "bit/s"),
    )


def _places(ends: Sequence[End]) -> Iterator[Place]:
    """Each port or bond, then the members of the bonds."""
    yield from (port_place(end.ref) for end in ends)
    yield from (port_place(port) for end in ends for port in end.ports if port != end.ref)


def _unknown_rate(crowd: Crowd) -> Judgement:
    silent = next(end.ref for end in crowd.ends if end.best_bit_per_s is None)
    others = listed(str(end.ref) for end in crowd.ends if end.ref != silent)
    return TWO_PORTS_ONE_NETWORK.not_checked(
        *_places(sorted(crowd.ends, key=lambda end: end.ref != silent)),
        reason=f"The rates of {silent} are not given",
        decides=f"write down `rates` of {silent}: beside {others} in {crowd.within} it must not be slower or faster",
    )


TWO_PORTS_ONE_NETWORK = Rule(
    name="two-ports-one-network",
    family="addresses",
    severity="fail",
    subjects=crowds,
    judge=_judge_unequal,
    what="A storage with two ports of different rate in one subnet.",
    why="The storage answers for the address of its fast port on the slow one as well, so that a copy runs at 10 Gb/s "
    "one way and at 1 Gb/s the other.",
    todo="Leave one port in each subnet: unplug the slow one, or give it a network of its own.",
    sources=_sources,
)


def _settled_crowds(facts: Facts) -> Iterable[Crowd]:
    return (crowd for crowd in crowds(facts) if crowd.settled)


def _judge_equal(crowd: Crowd, facts: Facts) -> Judgement:
    rated = crowd.rated
    if differ(rated):
        return None
    names = listed(end.ref for end in crowd.ends)
    return EQUAL_PORTS_ONE_NETWORK.finding(
        *_places(crowd.ends),
        message=f"{names} are in {crowd.within}, each of {both_rates_text(rated[0][0])}: "
        "which of them a seat gets is left to chance",
        remedy=step_for_equal(crowd, facts),
        source=ANY_PORT_ANSWERS,
    )


EQUAL_PORTS_ONE_NETWORK = Rule(
    name="equal-ports-one-network",
    family="addresses",
    severity="warn",
    subjects=_settled_crowds,
    judge=_judge_equal,
    what="A storage with two ports of the same rate in one subnet, not bonded.",
    why="The storage answers for each address on either port: all seats may crowd onto one while the other idles.",
    todo="Bond the ports, or give each a network of its own.",
    sources=_sources,
)


class Wire(NamedTuple):
    """Ports of one storage on one broadcast domain of switches that know no networks."""

    switch: str
    """The switch that the first of them is plugged into."""
    ends: tuple[End, ...]


def _wires(facts: Facts) -> Iterator[Wire]:
    islands = _untagged_islands(facts)
    for storage in storages(facts):
        by_island: dict[int, list[tuple[str, End]]] = {}
        for end in ends_of(storage, facts):
            if end.lies_in and not end.tagged:
                for island, switch in _plugged_into(end, facts, islands).items():
                    by_island.setdefault(island, []).append((switch, end))
        for plugged in by_island.values():
            for group in conflicting([end for _, end in plugged]):
                yield Wire(plugged[0][0], tuple(group))


def _untagged_islands(facts: Facts) -> Islands[int]:
    """The bridges that frames without a tag pass between, whatever network they belong to."""
    graph = facts.topology.forwarding
    islands: Islands[int] = Islands()
    for bridge, edges in enumerate(graph.edges):
        for edge in edges:
            if edge.bridge is not None and graph.carried[edge.out_port].any and graph.carried[edge.in_port].any:
                islands.join(bridge, edge.bridge)
    return islands


def _plugged_into(end: End, facts: Facts, islands: Islands[int]) -> dict[int, str]:
    """The islands that a port reaches through ports which carry any network, each with the first switch there."""
    graph = facts.topology.forwarding
    found: dict[int, str] = {}
    for port in end.ports:
        for edge in graph.ways.get(port, ()):
            if edge.bridge is not None and graph.carried[edge.in_port].any:
                found.setdefault(islands.of(edge.bridge), edge.in_port.device)
    return found


def _judge_wire(wire: Wire, facts: Facts) -> Judgement:
    apart = _apart(wire.ends)
    if apart is None:
        return None
    one, other = apart
    return TWO_NETWORKS_ONE_WIRE.finding(
        *_places((one, other)),
        device_place(wire.switch),
        message=f"{one.ref} in {one.lies_in[0]} and {other.ref} in {other.lies_in[0]} are on the same wire: "
        f"{wire.switch} keeps no networks apart",
        remedy=f"Plug {other.ref} into another switch that is not joined to {wire.switch}, or give the ports of "
        f"{wire.switch} their networks, if it can keep them apart.",
        source=ANY_PORT_ANSWERS,
    )


def _apart(ends: Sequence[End]) -> tuple[End, End] | None:
    """Two ports that share no subnet."""
    first_of_kind: dict[frozenset[str], End] = {}
    for end in ends:
        first_of_kind.setdefault(frozenset(end.lies_in), end)
    pairs = combinations(first_of_kind.values(), 2)
    return next((pair for pair in pairs if set(pair[0].lies_in).isdisjoint(pair[1].lies_in)), None)


TWO_NETWORKS_ONE_WIRE = Rule(
    name="two-networks-one-wire",
    family="addresses",
    severity="warn",
    subjects=_wires,
    judge=_judge_wire,
    what="A storage with ports in two subnets, both plugged into switches that do not keep the two apart.",
    why="The storage may answer for the address of its fast port on the slow one, and the subnets protect nothing.",
    todo="Give each network a switch of its own, or one that keeps them apart.",
    sources=_sources,
)
