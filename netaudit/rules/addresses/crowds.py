"""Crowds: ports of one storage that share a subnet, and how they are brought apart."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from netaudit.listing import listed
from netaudit.model.path import Path
from netaudit.model.place import PortRef
from netaudit.network.forwarding import FORWARDING_ROLES
from netaudit.rules.addresses.book import book_of
from netaudit.rules.addresses.once import once
from netaudit.rules.addresses.storage_ends import End, conflicting, ends_of, storages
from netaudit.rules.facts import Facts
from netaudit.rules.words import steps_text


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
        return sorted(runs if differ(runs) else best, key=lambda each: each[0])


def differ(rated: Sequence[tuple[int, End]]) -> bool:
    """Whether some ports have another rate than others."""
    return len({rate for rate, _ in rated}) > 1


@once
def crowds(facts: Facts) -> Sequence[Crowd]:
    """The ports of each storage that share a subnet, by the first subnet that they share."""
    return [crowd for storage in storages(facts) for crowd in _crowds_of(ends_of(storage, facts))]


def _crowds_of(ends: Sequence[End]) -> Iterator[Crowd]:
    by_subnet: dict[str, list[End]] = {}
    for end in ends:
        for subnet in end.lies_in:
            by_subnet.setdefault(subnet, []).append(end)
    told = set()
    for subnet, sharing in by_subnet.items():
        for group in conflicting(sharing):
            refs = frozenset(end.ref for end in group)
            if refs not in told:
                told.add(refs)
                yield Crowd(subnet, tuple(group))


def step_for_unequal(crowd: Crowd, slow: End, fast: End, facts: Facts) -> str:
    """What to do about ports of different rate: the slow one goes, unless a seat needs it."""
    if _straight(crowd, facts):
        return _own_cables(crowd, facts)
    apart = f"a network and a subnet of its own{_for_example([''], crowd, facts)}; {fast.ref} stays"
    return f"Give {slow.ref} {apart}." if _needed([slow], facts) else f"Unplug {slow.ref}, or give it {apart}."


def step_for_equal(crowd: Crowd, facts: Facts) -> str:
    """What to do about ports of the same rate: a bond where one switch has them all, else networks of their own."""
    if _straight(crowd, facts):
        return _own_cables(crowd, facts)
    steps = [f"give each a network and a subnet of its own{_for_example(_others(crowd), crowd, facts)}"]
    if len(_far_devices(crowd, facts)) == 1:
        steps.insert(0, f"bond {listed(end.ref for end in crowd.ends)} if the switch can")
    kept = (end for end in crowd.ends if not _needed([each for each in crowd.ends if each != end], facts))
    steps.extend(f"unplug all but {end.ref}" for end in islice(kept, 1))
    return steps_text(steps)


def _own_cables(crowd: Crowd, facts: Facts) -> str:
    """The step for ports that seats are plugged straight into."""
    example = _for_example(_others(crowd), crowd, facts)
    return f"Give each cable a network and a subnet of its own, at both ends{example}."


def _others(crowd: Crowd) -> Sequence[str]:
    """Those of a crowd that leave its subnet to the first one."""
    return [f" for {end.ref}" for end in crowd.ends[1:]]


def _for_example(whose: Sequence[str], crowd: Crowd, facts: Facts) -> str:
    """Free subnets, each with whose it is, as the end of a step; empty where the plan gives none, or few are free."""
    free = book_of(facts).free_subnets(crowd.within, len(whose))
    if len(free) < len(whose):
        return ""
    return f" (for example {listed(f'{subnet}{end}' for subnet, end in zip(free, whose, strict=True))})"


def _far_devices(crowd: Crowd, facts: Facts) -> Collection[str]:
    """The devices that the ports of a crowd are linked to."""
    ways = facts.topology.forwarding.ways
    return {edge.in_port.device for end in crowd.ends for port in end.ports for edge in ways.get(port, ())}


def _straight(crowd: Crowd, facts: Facts) -> bool:
    """Whether the ports of a crowd are plugged into nothing that joins several machines."""
    far = _far_devices(crowd, facts)
    return bool(far) and not any(facts.plan.devices[name].role in FORWARDING_ROLES for name in far)


def _needed(ends: Sequence[End], facts: Facts) -> bool:
    """Whether a seat would lose its storage, or be left with radio, if some ports of that were unplugged."""
    gone = {port for end in ends for port in end.ports}
    roads: dict[str, list[Path]] = {}
    for path in facts.topology.paths:
        if path.hops and path.storage == ends[0].ref.device:
            roads.setdefault(path.station, []).append(path)
    return any(_lost(paths, gone) for paths in roads.values())


def _lost(paths: Sequence[Path], gone: Collection[PortRef]) -> bool:
    """Whether no road of a seat is left without some ports, by wire if the planned one is."""
    wired = not _by_radio(next(path for path in paths if path.planned))
    return all(path.to_port in gone or (wired and _by_radio(path)) for path in paths)


def _by_radio(path: Path) -> bool:
    return any(hop.phy == "radio" for hop in path.hops)
