"""The rule about depth: does what is mounted in a rack fit between its front and its back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.model.finding import Judgement, Measure
from netaudit.rules.facts import Facts
from netaudit.rules.racks.positions import LIFTING, Filled, Mounted, Slot, filled_racks
from netaudit.rules.rule import Rule
from netaudit.units import measure_text


class Deep(NamedTuple):
    """A device whose depth is given, and the deepest that stands back to back with it."""

    filled: Filled
    mounted: Mounted
    behind: Mounted | None
    """Of the other side, before it in the plan."""


def _deep(facts: Facts) -> Iterable[Deep]:
    """Every device of known depth; of a rack whose depth is not given only the deepest."""
    for filled in filled_racks(facts.plan):
        known = [mounted for mounted in filled.mounted if mounted.device.depth_m is not None]
        if filled.rack.depth_m is not None:
            yield from _back_to_back(filled, known)
        elif known:
            yield Deep(filled, max(known, key=_depth_mm), None)


def _back_to_back(filled: Filled, known: Iterable[Mounted]) -> Iterator[Deep]:
    deepest: dict[tuple[str, Slot], Mounted] = {}
    for mounted in known:
        side = mounted.position.mounted
        other_side = "rear" if side == "front" else "front"
        slots = list(mounted.slots)
        facing = [deepest[other_side, slot] for slot in slots if (other_side, slot) in deepest]
        yield Deep(filled, mounted, max(facing, key=_depth_mm, default=None))
        for slot in slots:
            deepest[side, slot] = max(deepest.get((side, slot), mounted), mounted, key=_depth_mm)


def _depth_mm(mounted: Mounted) -> float:
    """Depth of a device [mm], to the tenth; 0 where none is given."""
    return round((mounted.device.depth_m or 0.0) * 1000, 1)


def _judge(deep: Deep, facts: Facts) -> Judgement:
    rack, name, own_mm = deep.filled.rack, deep.mounted.device.name, _depth_mm(deep.mounted)
    if rack.depth_m is None:
        return TOO_DEEP.not_checked(
            deep.filled.place,
            reason=f"The depth of {rack.name} is not given",
            decides=f"measure from its front rails to whatever closes the back, and write it down as `depth`: "
            f"{name} is {measure_text(own_mm, 'mm')} deep",
        )
    limit_mm = round(rack.depth_m * 1000, 1)
    own, room = measure_text(own_mm, "mm"), f"{rack.name} has room for {measure_text(limit_mm, 'mm')}"
    if own_mm > limit_mm:
        return TOO_DEEP.finding(
            deep.filled.place,
            deep.mounted.place,
            message=f"{name} is {own} deep, and {room}",
            remedy=f"Put {name} into a rack that is deeper than {own}: plugs and air need room behind it.",
            source=PLAN,
            measured=Measure(own_mm, "mm"),
            limit=Measure(limit_mm, "mm"),
        )
    return None if deep.behind is None else _judge_pair(deep, deep.behind, own_mm, limit_mm)


def _judge_pair(deep: Deep, behind: Mounted, own_mm: float, limit_mm: float) -> Judgement:
    both_mm = round(own_mm + _depth_mm(behind), 1)
    if both_mm <= limit_mm:
        return None
    name, other, rack = deep.mounted.device.name, behind.device.name, deep.filled.rack.name
    return TOO_DEEP.finding(
        deep.filled.place,
        deep.mounted.place,
        behind.place,
        message=f"{name} and {other}, back to back in the same units, are {measure_text(both_mm, 'mm')} deep together, "
        f"and {rack} has room for {measure_text(limit_mm, 'mm')}",
        remedy=f"Move {name} or {other} to other units: plugs and air need room between them as well.",
        source=PLAN,
        measured=Measure(both_mm, "mm"),
        limit=Measure(limit_mm, "mm"),
    )


TOO_DEEP = Rule(
    name="too-deep",
    family="rack and power",
    severity="warn",
    subjects=_deep,
    judge=_judge,
    what="A device that is deeper than its rack, or two that meet back to back.",
    why="The door does not close, or plugs are bent and warm air has nowhere to go. What only just fits is too deep.",
    todo=f"Compare depths before buying, and leave room for plugs and air behind everything. {LIFTING}",
)
