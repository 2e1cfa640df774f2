"""Captures spoiled by chance, always alike: cut, doubled, with flipped bits, endless lines and words of a wrong kind."""

from __future__ import annotations

import random
from collections.abc import Iterator

ODD = (
    "",
    "\0",
    "-1",
    "0x",
    "99999999999999999999",
    "ffff",
    "\udcff",
    "٣",
    "²",
    " ",
    "\t",
    "//",
    "[",
    "]:",
    "=",
    "\\777",
)


def spoiled(text: str, count: int = 200) -> Iterator[str]:
    """So many spoiled forms of a text."""
    chance = random.Random(44)  # noqa: S311 - the same each time is what is wanted
    yield from ("", "\n", "\0" * 40, text * 2, text.replace("\n", ""), text + "9" * 100_000, " " * 100_000 + text)
    for _ in range(count):
        yield _changed(chance, text)


def _changed(chance: random.Random, text: str) -> str:
    for _ in range(chance.randrange(1, 6)):
        at = chance.randrange(len(text) + 1)
        match chance.randrange(5):
            case 0:
                text = text[:at]
            case 1:
                text = text[:at] + text[chance.randrange(len(text) + 1) :]
            case 2:
                text = text[:at] + chance.choice(ODD) + text[at + chance.randrange(8) :]
            case 3:
                text = (
                    text[:at]
                    + "".join(chr(ord(each) ^ (1 << chance.randrange(7))) for each in text[at : at + 1])
                    + text[at + 1 :]
                )
            case _:
                lines = text.split("\n")
                chance.shuffle(lines)
                text = "\n".join(lines)
    return text
