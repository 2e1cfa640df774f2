"""Hints: the nearest right spelling, found among very many without comparing them all."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Collection

from netaudit.errors import nearest
from netaudit.plan.scalars.text import LONGEST_NAME, quoted

COMPARED = 200
"""Right spellings that a wrong one is compared with."""
LENGTHS_APART = 2
"""Characters by which a right spelling may be longer or shorter, where there are too many to compare all."""

_BESIDE = COMPARED // (2 * (2 * LENGTHS_APART + 1))
"""Neighbours in the alphabet that are compared, on either side and of each length."""


class Hints:
    """Hints for many wrong words; each collection of right spellings is gone through once."""

    def __init__(self) -> None:
        self._sorted: dict[int, tuple[Collection[str], dict[int, list[str]]]] = {}

    def hint(self, word: str, known: Collection[str]) -> str:
        """What to add to a message about a wrong word: the nearest known one; nothing where none comes near."""
        if len(word) > LONGEST_NAME:
            return ""
        near = nearest(word, known if len(known) <= COMPARED else self._likely(word, known))
        return f"; did you mean {quoted(near)}?" if near else ""

    def _likely(self, word: str, known: Collection[str]) -> list[str]:
        """The known words worth comparing: of about the same length, with the same beginning."""
        by_length = self._by_length(known)
        likely: list[str] = []
        for length in range(len(word) - LENGTHS_APART, len(word) + LENGTHS_APART + 1):
            words = by_length.get(length, [])
            place = bisect_left(words, word)
            likely += words[max(place - _BESIDE, 0) : place + _BESIDE]
        return likely

    def _by_length(self, known: Collection[str]) -> dict[int, list[str]]:
        """The known words of each length, in alphabetical order."""
        if id(known) not in self._sorted:
            by_length: dict[int, list[str]] = {}
            for word in sorted(known):
                by_length.setdefault(len(word), []).append(word)
            self._sorted[id(known)] = (known, by_length)
        return self._sorted[id(known)][1]
