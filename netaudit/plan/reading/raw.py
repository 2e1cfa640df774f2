"""The raw tree of a plan: texts, mappings and lists, each with its place in the file."""

from __future__ import annotations

import re
from array import array
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import TypeAlias

from netaudit.model.place import Position
from netaudit.plan.scalars.text import path_part

Location: TypeAlias = tuple[str | int, ...]
"""Keys, and places in lists counted from 0, from one value down to another."""
DEEPEST = 64
"""Levels of mappings and lists within each other, repeated ones included."""


class Mapping(dict[str, "Raw"]):
    """A mapping as written; `marks` holds the index of each key and its value, alternately."""

    __slots__ = ("_places", "marks")

    def __init__(self) -> None:
        self.marks: list[int] = []
        self._places: dict[str, int] = {}

    def place(self, key: str) -> int:
        """How many keys stand before one that is there; more keys may follow, none may go."""
        last = len(self) - 1
        for back, each in enumerate(islice(reversed(self), len(self) - len(self._places))):
            self._places[each] = last - back
        return self._places[key]


class Sequence(list["Raw"]):
    """A list as written; `marks` holds the index of each item."""

    __slots__ = ("marks",)

    def __init__(self) -> None:
        self.marks: list[int] = []


Raw: TypeAlias = str | Mapping | Sequence


@dataclass(frozen=True, slots=True)
class Spot:
    """A value in the raw tree and the way to it."""

    raw: Raw
    index: int
    """Character at which it begins, counted from 0."""
    path: tuple[str, ...]
    """Keys from the top of the document; items of lists are counted from 1."""

    def key_index(self, key: str) -> int:
        """The character at which a key of this mapping begins; its own where it has no such key."""
        if isinstance(self.raw, Mapping) and key in self.raw:
            return self.raw.marks[2 * self.raw.place(key)]
        return self.index

    def get(self, key: str | int) -> Spot | None:
        """The value under a key, or in a place of a list; None where there is none."""
        if isinstance(self.raw, Mapping) and isinstance(key, str) and key in self.raw:
            index = self.raw.marks[2 * self.raw.place(key) + 1]
            return Spot(self.raw[key], index, (*self.path, path_part(key)))
        if isinstance(self.raw, Sequence) and isinstance(key, int) and 0 <= key < len(self.raw):
            return Spot(self.raw[key], self.raw.marks[key], (*self.path, str(key + 1)))
        return None

    def below(self, key: str | int) -> Spot:
        """The value under a key, or in a place of a list; an empty text where there is none."""
        return self.get(key) or Spot("", self.index, (*self.path, str(key)))

    def entries(self) -> Iterator[tuple[str, int, Spot]]:
        """Each key of this mapping, the character it begins at, and its value; nothing where it is no mapping."""
        if isinstance(self.raw, Mapping):
            marks = self.raw.marks
            for (key, value), at, value_at in zip(self.raw.items(), marks[::2], marks[1::2], strict=True):
                yield key, at, Spot(value, value_at, (*self.path, path_part(key)))

    def at(self, location: Iterable[str | int]) -> Spot:
        """The spot as far down a location as values go: one text may stand where a list of one is meant."""
        spot = self
        for part in location:
            found = spot.get(part)
            if found is None:
                return spot
            spot = found
        return spot


@dataclass(frozen=True, slots=True)
class Document:
    """A whole file, read but not yet understood."""

    root: Mapping
    index: int
    """Character at which the top mapping begins."""

    @property
    def spot(self) -> Spot:
        """The top mapping."""
        return Spot(self.root, self.index, ())


class Positions:
    """From characters to lines and columns, as editors count them."""

    def __init__(self, text: str) -> None:
        self._line_starts = array("L", [0])
        self._line_starts.extend(end.end() for end in re.finditer("\r\n|\n|\r", text))

    def at(self, index: int) -> Position:
        """Line and column of a character."""
        line = bisect_right(self._line_starts, index)
        return Position(line, index - self._line_starts[line - 1] + 1)
