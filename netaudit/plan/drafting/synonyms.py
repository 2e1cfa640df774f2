"""Synonyms: what people write for words that a plan has one spelling of."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
NUMBERS: Mapping[str, int] = {word: number for number, word in enumerate(_WORDS, start=1)}
"""Numbers that are written out."""

_VERSION = r"(?: ?[0-9][0-9.]*)?"
_SYSTEMS = {
    "macos": re.compile(rf"(?:mac|mac ?os|os ?x|mac os x){_VERSION}"),
    "windows": re.compile(rf"win(?:dows)?{_VERSION}"),
}
_CATEGORY = re.compile(r"cat(?:egory)?[ .-]?(.+)")


def system_word(text: str) -> str:
    """The word of a plan for an operating system, such as `Windows 11` or `osx`; any other text as it is."""
    known = (word for word, pattern in _SYSTEMS.items() if pattern.fullmatch(text.casefold()))
    return next(known, spelt(text, ("linux", "unknown")))


def category_word(text: str, known: Collection[str]) -> str:
    """The known word for a cable in a wall, such as `cat5e` or `Category 6a`; any other text as it is."""
    found = _CATEGORY.fullmatch(text.casefold())
    bare = text if found is None else found[1]
    word = spelt(bare, known)
    return word if word in known else text


def spelt(text: str, known: Collection[str]) -> str:
    """The known word that a text is but for capitals; any other text as it is."""
    folded = text.casefold()
    return next((word for word in known if word.casefold() == folded), text)
