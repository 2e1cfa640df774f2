"""Rules about rack units: does each device have its own, within the rack."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.rules.facts import Facts
from netaudit.rules.racks.positions import LIFTING, Filled, Mounted, Slot, filled_racks
from netaudit.rules.rule import Rule
from netaudit.standards.racks import RACK_UNIT, RACK_UNIT_MM
from netaudit.units import measure_text


class Neighbours(NamedTuple):
    """A device in a rack, and those before it in the plan that fill some of its units on its side."""

    filled: Filled
    mounted: Mounted
    others: tuple[Mounted, ...]
    shared: tuple[int, ...]
    """The units that they share."""
    taken: frozenset[int]
    """Every unit of the rack that something fills at either side."""


def _neighbours(facts: Facts) -> Iterable[Neighbours]:
    for filled in filled_racks(facts.plan):
        owner: dict[tuple[str, Slot], Mounted] = {}
        taken = frozenset(unit for mounted in filled.mounted for unit, _ in mounted.slots)
        for mounted in filled.mounted:
            others: dict[str, Mounted] = {}
            shared = set()
            for slot in mounted.slots:
                first = owner.setdefault((mounted.position.mounted, slot), mounted)
                if first is not mounted:
                    others[first.device.name] = first
                    shared.add(slot[0])
            yield Neighbours(filled, mounted, tuple(others.values()), tuple(sorted(shared)), taken)


def _judge_overlap(near: Neighbours, facts: Facts) -> Judgement:
    if not near.others:
        return None
    name, rack = near.mounted.device.name, near.filled.rack.name
    names = listed(each.device.name for each in (near.mounted, *near.others))
    units = f"unit{'s' if len(near.shared) > 1 else ''} {listed(near.shared)}"
    return UNITS_OVERLAP.finding(
        near.filled.place,
        near.mounted.place,
        *(other.place for other in near.others),
        message=f"{names} share {units} of {rack} at the {near.mounted.position.mounted}",
        remedy=f"Give {name} units of its own{_free_units(near)}.",
        source=PLAN,
    )


def _free_units(near: Neighbours) -> str:
    """The lowest free units that are high enough, as the end of a remedy; empty if the rack is full or its height open.

    Both sides must be free there, since how deep devices are is seldom known.
    """
    rack, height = near.filled.rack, near.mounted.position.height
    for lowest in range(1, (rack.units or 0) - height + 2):
        if near.taken.isdisjoint(range(lowest, lowest + height)):
            return f", such as unit {lowest}" if height == 1 else f", such as units {lowest} to {lowest + height - 1}"
    return ""


UNITS_OVERLAP = Rule(
    name="units-overlap",
    family="rack and power",
    severity="fail",
    subjects=_neighbours,
    judge=_judge_overlap,
    what="Two devices at one side of a rack that fill the same unit; two halves of the width may share one.",
    why="One of the two does not go in, which shows on the day when everything is already screwed down.",
    todo=f"Give each device units of its own. {LIFTING}",
)


def _racks(facts: Facts) -> Iterable[Filled]:
    return filled_racks(facts.plan)


def _judge_outside(filled: Filled, facts: Facts) -> Judgement:
    rack = filled.rack
    highest = max(mounted.top for mounted in filled.mounted)
    if rack.units is None:
        return OUTSIDE_RACK.not_checked(
            filled.place,
            reason=f"The height of {rack.name} is not given",
            decides=f"count its units and write them down as `units`: it needs {highest} at least",
        )
    outside = [mounted for mounted in filled.mounted if mounted.top > rack.units]
    if not outside:
        return None
    outside.sort(key=lambda mounted: -mounted.top)
    told = listed(f"{mounted.device.name} in {mounted.units}" for mounted in outside)
    missing = highest - rack.units
    return OUTSIDE_RACK.finding(
        filled.place,
        *(mounted.place for mounted in outside),
        message=f"{rack.name} has {_units(rack.units)}: {told} {'stands' if len(outside) == 1 else 'stand'} out of it",
        remedy=f"Move {listed(mounted.device.name for mounted in outside)} down to free units, or take a rack "
        f"that is {_units(missing)} ({measure_text(missing * RACK_UNIT_MM, 'mm')}) higher.",
        source=PLAN,
        measured=Measure(highest, "units"),
        limit=Measure(rack.units, "units"),
    )


def _units(count: int) -> str:
    return f"{count} unit{'' if count == 1 else 's'}"


OUTSIDE_RACK = Rule(
    name="outside-rack",
    family="rack and power",
    severity="fail",
    subjects=_racks,
    judge=_judge_outside,
    what="A device whose units reach beyond the top of its rack.",
    why="It has nothing to be screwed to. Units are counted from the bottom, and a device is as high as all it fills.",
    todo=f"Move it down, or take a higher rack. {LIFTING}",
    sources=lambda: (PLAN, RACK_UNIT),
)
