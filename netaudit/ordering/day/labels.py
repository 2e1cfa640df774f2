"""Labels: what is printed for each end of each cable, so that either end tells where the other one is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from typing import Literal, NamedTuple

from netaudit.errors import InputError, Problem
from netaudit.model.moving import Label
from netaudit.model.place import PortRef, cable_place
from netaudit.model.plan import Cable, Plan
from netaudit.ordering.day.label_pattern import Piece, faults, filled, pieces
from netaudit.ordering.rooms import room_of
from netaudit.units import length_text

DEFAULT = "{id} {near} > {far} {category} {length}"
"""What a label says where nobody chose: both ends as device/port, so that nobody needs a sheet to look them up."""
_AFTER_ID = pieces(DEFAULT.removeprefix("{id}"))


class _End(NamedTuple):
    """One end of a cable."""

    plan: Plan
    cable: Cable
    end: Literal["from", "to"]
    near: PortRef
    far: tuple[PortRef, ...]


_VALUES: Mapping[str, Callable[[_End], str]] = {
    "id": lambda end: end.cable.name,
    "near": lambda end: str(end.near),
    "far": lambda end: _row(map(str, end.far)),
    "near_device": lambda end: end.near.device,
    "near_port": lambda end: end.near.port,
    "far_device": lambda end: _row(port.device for port in end.far),
    "far_port": lambda end: _row(port.port for port in end.far),
    "near_room": lambda end: room_of(end.plan, end.near) or "",
    "far_room": lambda end: _row(room_of(end.plan, port) or "" for port in end.far),
    "category": lambda end: "" if end.cable.category == "unknown" else end.cable.category,
    "length": lambda end: "" if end.cable.length_m is None else length_text(end.cable.length_m),
    "from": lambda end: str(end.cable.from_port),
    "to": lambda end: _row(map(str, end.cable.to_ports)),
    "note": lambda end: end.cable.note or "",
}
PLACEHOLDERS = tuple(_VALUES)
"""What may stand between braces in a pattern."""


def labels(plan: Plan, pattern: str | None) -> tuple[Label, ...]:
    """A label for each end of each cable, in plan order; a breakout has one for its trunk and one for each tail.

    A cable's own `label` goes before the caller's pattern. Either one without a placeholder only takes the id's place;
    with one it is the whole text, even where it leaves out an end: the text carries both ends as device/port unless
    somebody chose otherwise. What a plan does not know is left out, with the blank before it. Raises InputError with
    every pattern that holds an unknown placeholder or a lone brace.
    """
    otherwise = DEFAULT if pattern is None else pattern
    problems = list(_problems(plan, otherwise))
    if problems:
        raise InputError(problems)
    read = cache(_whole)
    return tuple(
        Label(
            cable.name, end.end, end.near, end.far, _text(read(otherwise if cable.label is None else cable.label), end)
        )
        for cable in plan.cables.values()
        for end in _ends(plan, cable)
    )


def _problems(plan: Plan, otherwise: str) -> Iterator[Problem]:
    """What is wrong with the caller's pattern and with those of cables, in plan order."""
    judged = cache(lambda pattern: faults(pattern, PLACEHOLDERS))
    yield from (Problem("--label", fault) for fault in judged(otherwise))
    for cable in plan.cables.values():
        for fault in () if cable.label is None else judged(cable.label):
            line, column = plan.lines.get(cable_place(cable.name), (None, None))
            yield Problem(plan.file, fault, line, column, ("cables", cable.name, "label"))


def _whole(pattern: str) -> tuple[Piece, ...]:
    """The pieces of a pattern; one without a placeholder takes the id's place in the usual text."""
    own = pieces(pattern)
    return own if any(piece.value is not None for piece in own) else (*own, *_AFTER_ID)


def _text(pattern: Iterable[Piece], end: _End) -> str:
    return filled(pattern, lambda name: _VALUES[name](end))


def _ends(plan: Plan, cable: Cable) -> Iterator[_End]:
    """Both ends of a cable, or the trunk and each tail of a breakout."""
    yield _End(plan, cable, "from", cable.from_port, cable.to_ports)
    for tail in cable.to_ports:
        yield _End(plan, cable, "to", tail, (cable.from_port,))


def _row(names: Iterable[str]) -> str:
    """Names in a row, each once; what is empty is left out."""
    return ", ".join(dict.fromkeys(filter(None, names)))
