"""Rules about several ports of one storage: does each stand in a network of its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import Place, device_place, port_place
from netaudit.network.islands import Islands
from netaudit.rules.addresses.book import Book
from netaudit.rules.addresses.storage_ends import End, conflicting, ends_of, storages
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.rules.words import listed
from netaudit.standards.internet import ANY_PORT_ANSWERS
from netaudit.units import both_rates_text


def _sources() -> tuple[Citation, ...]:
    return (ANY_PORT_ANSWERS,)


class Crowd(NamedTuple):
    """Ports of one storage in one subnet."""

    within: str
    """The subnet, or the network that names none."""
    ends: tuple[End, ...]

    @property
    def settled(self) -> bool:
        """Whether the rate of each is known."""
        return all(end.best_bit_per_s is not None for end in self.ends)

    @property
    def rated(self) -> Sequence[tuple[int, End]]:
        """The ports of known rate, the slowest first: by what they will run, or by their best where that is alike."""
        runs = [(end.runs_bit_per_s, end) for end in self.ends if end.runs_bit_per_s is not None]
        best = [(end.best_bit_per_s, end) for end in self.ends if end.best_bit_per_s is not None]
        return sorted(runs if _differ(runs) else best, key=lambda each: each[0])


def _differ(rated: Sequence[tuple[int, End]]) -> bool:
    return len({rate for rate, _ in rated}) > 1


def _crowds(facts: Facts) -> Iterator[Crowd]:
    """The ports of each storage that share a subnet, by the first subnet that they share."""
    book = Book(facts.plan)
    for storage in storages(facts):
        by_subnet: dict[str, list[End]] = {}
        for end in ends_of(storage, facts, book):
            for subnet in end.lies_in:
                by_subnet.setdefault(subnet, []).append(end)
        told = set()
        for subnet, ends in by_subnet.items():
            for group in conflicting(ends):
                refs = frozenset(end.ref for end in group)
                if refs not in told:
                    told.add(refs)
                    yield Crowd(subnet, tuple(group))


def _judge_unequal(crowd: Crowd, facts: Facts) -> Judgement:
    rated = crowd.rated
    if not _differ(rated):
        return None if crowd.settled else _unknown_rate(crowd)
    (slow_bit_per_s, slow), (fast_bit_per_s, fast) = rated[0], rated[-1]
    return TWO_PORTS_ONE_NETWORK.finding(
        *_places([slow, *(end for end in crowd.ends if end != slow)]),
        message=f"{listed(f'{end.ref} at {both_rates_text(rate)}' for rate, end in rated)} are in the same subnet, "
        f"{crowd.within}",
        remedy=f"Unplug {slow.ref}, or give it a network and a subnet of its own; {fast.ref} stays.",
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
    subjects=_crowds,
    judge=_judge_unequal,
    what="A storage with two ports of different rate in one subnet.",
    why="The storage answers for the address of its fast port on the slow one as well, so that a copy runs at 10 Gb/s "
    "one way and at 1 Gb/s the other.",
    todo="Leave one port in each subnet: unplug the slow one, or give it a network of its own.",
    sources=_sources,
)


def _settled_crowds(facts: Facts) -> Iterable[Crowd]:
    return (crowd for crowd in _crowds(facts) if crowd.settled)


def _judge_equal(crowd: Crowd, facts: Facts) -> Judgement:
    rated = crowd.rated
    if _differ(rated):
        return None
    names = listed(end.ref for end in crowd.ends)
    return EQUAL_PORTS_ONE_NETWORK.finding(
        *_places(crowd.ends),
        message=f"{names} are in {crowd.within}, each of {both_rates_text(rated[0][0])}: "
        "which of them a seat gets is left to chance",
        remedy=f"Bond {names} if the switch can, or give each a subnet of its own, "
        f"or unplug all but {crowd.ends[0].ref}.",
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
    book = Book(facts.plan)
    islands = _untagged_islands(facts)
    for storage in storages(facts):
        by_island: dict[int, list[tuple[str, End]]] = {}
        for end in ends_of(storage, facts, book):
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
