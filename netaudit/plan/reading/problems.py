"""The problems of one plan: kept in file order, bounded, and worded with the nearest right spelling."""

from __future__ import annotations

import heapq
from collections.abc import Collection
from typing import NamedTuple, NoReturn

from netaudit.errors import InputError, Problem
from netaudit.plan.reading.hints import Hints
from netaudit.plan.reading.raw import Positions
from netaudit.plan.scalars.text import printable

TOLD = 200
"""Problems that are told of one plan; the others are counted."""
ENOUGH = 10_000
"""Problems after which a plan is not read further."""


class StoppedError(Exception):
    """Reading cannot usefully go on; the problems say why."""


class Complaint(NamedTuple):
    """What is wrong, and the word that should have been one of those known."""

    message: str
    word: str | None = None
    known: Collection[str] = ()


class _Found:
    """A problem, not yet worded; of two, the one later in the file is the lesser, so that a heap drops it first."""

    __slots__ = ("index", "known", "message", "order", "path", "word")

    def __init__(self, order: int, index: int, path: tuple[str, ...], message: str) -> None:
        self.order = order
        self.index = index
        self.path = path
        self.message = message
        self.word: str | None = None
        self.known: Collection[str] = ()

    def __lt__(self, other: _Found) -> bool:
        return (self.index, self.order) > (other.index, other.order)


class Problems:
    """What is wrong with one file; of many problems the first in the file are kept."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.positions = Positions("")
        self._first: list[_Found] = []
        self._count = 0
        self._complete = True

    def add(
        self, index: int, path: tuple[str, ...], message: str, word: str | None = None, known: Collection[str] = ()
    ) -> None:
        """Note a problem at a character; `word` should have been one of `known`.

        Raises StoppedError when there are more than anybody will read.
        """
        found = _Found(self._count, index, path, message)
        found.word, found.known = word, known
        self._count += 1
        keep = heapq.heappush if len(self._first) < TOLD else heapq.heappushpop
        keep(self._first, found)
        if self._count >= ENOUGH:
            self._complete = False
            raise StoppedError

    def stop(self, index: int, message: str, path: tuple[str, ...] = ()) -> NoReturn:
        """Note a problem past which nothing can be read; raises StoppedError."""
        self.add(index, path, message)
        raise StoppedError

    def stop_alone(self, index: int, message: str) -> NoReturn:
        """Note a problem that makes all others doubtful; raises StoppedError."""
        self._first, self._count, self._complete = [], 0, True
        self.stop(index, message)

    def __bool__(self) -> bool:
        return self._count > 0

    def error(self) -> InputError:
        """Every problem told, in file order, as the error to raise."""
        hints = Hints()
        told = [self._told(found, hints) for found in sorted(self._first, reverse=True)]
        left = self._count - len(told)
        if left:
            at_least = "" if self._complete else "at least "
            told.append(Problem(printable(self.file), f"and {at_least}{left} more problems"))
        return InputError(told)

    def _told(self, found: _Found, hints: Hints) -> Problem:
        position = self.positions.at(found.index)
        hint = "" if found.word is None else hints.hint(found.word, found.known)
        return Problem(printable(self.file), found.message + hint, position.line, position.column, found.path)
