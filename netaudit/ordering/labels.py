"""Labels: what is printed for each end of each cable, so that either end tells where the other one is."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from netaudit.errors import InputError, Problem, nearest
from netaudit.model.moving import Label
from netaudit.model.place import PortRef, cable_place
from netaudit.model.plan import Cable, Plan
from netaudit.ordering.words import names_all
from netaudit.units import length_text

DEFAULT = "{id} {near} > {far} {category} {length}"
"""What a label says where nobody chose: both ends as device/port, so that nobody needs a sheet to look them up."""
LONGEST_TEXT = 60
"""Characters that still print large enough to be read on a cable: common practice, no source."""
LONGEST_WORD = 64
"""Characters of a misspelt placeholder that is compared with the right ones."""
MOST_TOLD = 10
"""Faults of one pattern, or texts of one kind, that are told one by one."""
_TOKENS = re.compile(r"\{\{|\}\}|\{[^{}]*\}|[{}]|[^{}]+")


class _End(NamedTuple):
    """One end of a cable."""

    plan: Plan
    cable: Cable
    end: Literal["from", "to"]
    near: PortRef
    far: tuple[PortRef, ...]


class _Piece(NamedTuple):
    """A piece of a pattern: words as they are, or the name of a placeholder."""

    words: str
    value: str | None = None


_VALUES: Mapping[str, Callable[[_End], str]] = {
    "id": lambda end: end.cable.name,
    "near": lambda end: str(end.near),
    "far": lambda end: _row(map(str, end.far)),
    "near_device": lambda end: end.near.device,
    "near_port": lambda end: end.near.port,
    "far_device": lambda end: _row(port.device for port in end.far),
    "far_port": lambda end: _row(port.port for port in end.far),
    "near_room": lambda end: _room(end.plan, end.near),
    "far_room": lambda end: _row(_room(end.plan, port) for port in end.far),
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

    A cable's own `label` goes before the caller's pattern. Either one without a placeholder only takes the id's place.
    What a plan does not know is left out, with the blank before it. Raises InputError with every pattern that holds
    an unknown placeholder or a lone brace.
    """
    read = _Patterns(plan, pattern)
    return tuple(
        Label(cable.name, end.end, end.near, end.far, _filled(read.of(cable), end))
        for cable in plan.cables.values()
        for end in _ends(plan, cable)
    )


class _Patterns:
    """The pattern of each cable, every distinct one read once."""

    def __init__(self, plan: Plan, pattern: str | None) -> None:
        self._otherwise = DEFAULT if pattern is None else pattern
        self._read: dict[str, tuple[_Piece, ...]] = {}
        problems = [Problem("--label", fault) for fault in self._faults(self._otherwise)]
        for cable in plan.cables.values():
            if cable.label is not None and (faults := self._faults(cable.label)):
                at = plan.lines.get(cable_place(cable.name))
                line, column = (None, None) if at is None else at
                path = ("cables", cable.name, "label")
                problems += [Problem(plan.file, fault, line, column, path) for fault in faults]
        if problems:
            raise InputError(problems)

    def of(self, cable: Cable) -> tuple[_Piece, ...]:
        """The pattern of a cable."""
        return self._read[self._otherwise if cable.label is None else cable.label]

    def _faults(self, pattern: str) -> tuple[str, ...]:
        """What is wrong with a pattern, a sentence each; the pattern is read on the way."""
        if pattern in self._read:
            return ()
        tokens = _TOKENS.findall(pattern)
        wrong = list(dict.fromkeys(token for token in tokens if _is_wrong(token)))
        if not wrong:
            self._read[pattern] = _pieces(tokens)
        return tuple(_fault(token, pattern) for token in wrong[:MOST_TOLD])


def _is_wrong(token: str) -> bool:
    return token in ("{", "}") or (_is_placeholder(token) and token[1:-1] not in _VALUES)


def _is_placeholder(token: str) -> bool:
    return token[0] == "{" and token[-1] == "}"


def _fault(token: str, pattern: str) -> str:
    """What is wrong with a token of a pattern, and what may stand there."""
    choices = ", ".join(f"{{{name}}}" for name in PLACEHOLDERS)
    if token in ("{", "}"):
        remedy = f"write {token * 2!r} for the brace itself; placeholders are {choices}"
        return f"a lone {token!r} in {_quoted(pattern)}: {remedy}"
    word = token[1:-1].strip()
    near = nearest(word, PLACEHOLDERS) if len(word) <= LONGEST_WORD else None
    hint = f"; did you mean {{{near}}}?" if near else "."
    return f"{_quoted(token)} in {_quoted(pattern)} is no placeholder{hint} They are {choices}"


def _quoted(text: str) -> str:
    return f"'{text if len(text) <= LONGEST_TEXT else text[: LONGEST_TEXT - 1] + '…'}'"


def _pieces(tokens: Iterable[str]) -> tuple[_Piece, ...]:
    """The pieces of a right pattern; one without a placeholder takes the id's place in the usual text."""
    braces = {"{{": "{", "}}": "}"}
    pieces = [
        _Piece("", token[1:-1]) if _is_placeholder(token) else _Piece(braces.get(token, token)) for token in tokens
    ]
    if any(piece.value is not None for piece in pieces):
        return tuple(pieces)
    return (*pieces, *_pieces(_TOKENS.findall(DEFAULT.removeprefix("{id}"))))


def _filled(pieces: Sequence[_Piece], end: _End) -> str:
    """The text of a pattern at one end; the blank before a value that is not known goes with it."""
    text = ""
    for words, value in pieces:
        part = words if value is None else _VALUES[value](end)
        text = text + part if part else text.removesuffix(" ")
    return text.strip()


def _ends(plan: Plan, cable: Cable) -> Iterator[_End]:
    """Both ends of a cable, or the trunk and each tail of a breakout."""
    yield _End(plan, cable, "from", cable.from_port, cable.to_ports)
    for tail in cable.to_ports:
        yield _End(plan, cable, "to", tail, (cable.from_port,))


def _row(names: Iterable[str]) -> str:
    """Names in a row, each once; what is empty is left out."""
    return ", ".join(dict.fromkeys(filter(None, names)))


def _room(plan: Plan, port: PortRef) -> str:
    """The room in which a port is, be it that of its rack; empty where the plan does not say."""
    device = plan.devices[port.device]
    rack = None if device.rack is None else plan.racks.get(device.rack.rack)
    return device.room or (rack.room if rack is not None else None) or ""


def label_remarks(labels: Sequence[Label]) -> tuple[str, ...]:
    """What is doubtful about labels, a sentence each: equal texts, texts that name only one end, very long ones."""
    return (*_equal(labels), *_one_sided(labels), *_long(labels))


def _equal(labels: Iterable[Label]) -> Iterator[str]:
    """Texts that stand at more than one end."""
    ends: dict[str, list[Label]] = {}
    for label in labels:
        ends.setdefault(label.text, []).append(label)
    shared = [(text, group) for text, group in ends.items() if len(group) > 1]
    for text, group in shared[:MOST_TOLD]:
        told = ", ".join(f"{label.cable} at {label.port}" for label in group[:MOST_TOLD])
        more = f" and {len(group) - MOST_TOLD} more" if len(group) > MOST_TOLD else ""
        yield f"The label {_quoted(text)} stands at {len(group)} ends: {told}{more}; add {{near}} to tell them apart."
    if len(shared) > MOST_TOLD:
        yield f"{len(shared) - MOST_TOLD} more labels stand at several ends each; add {{near}} to tell them apart."


def _one_sided(labels: Iterable[Label]) -> Iterator[str]:
    """Texts that do not name both ends as device/port."""
    found = [label for label in labels if not names_all(label.text, map(str, (label.port, *label.far)))]
    if found:
        first = found[0]
        yield (
            f"{len(found)} {'label does' if len(found) == 1 else 'labels do'} not name both ends as device/port, the "
            f"first being {_quoted(first.text)} of {first.cable} at {first.port}: put {{near}} and {{far}} into the "
            "pattern, or whoever holds one end has to look up the other."
        )


def _long(labels: Iterable[Label]) -> Iterator[str]:
    """Texts so long that they print small."""
    found = [label for label in labels if len(label.text) > LONGEST_TEXT]
    if found:
        longest = max(found, key=lambda label: len(label.text))
        yield (
            f"{len(found)} {'label is' if len(found) == 1 else 'labels are'} longer than {LONGEST_TEXT} characters and "
            f"will be small in print; the longest, of {longest.cable} at {longest.port}, has {len(longest.text)}."
        )
