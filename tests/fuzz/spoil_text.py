"""Changes of a plan as a text and as bytes."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from oddities import ODD_BYTES, ODD_WORDS

TOKEN = re.compile(r"[\w./%°+-]+|[^\w\s]|\s+")


def _on_tokens(change: Callable[[random.Random, list[str], int], None]) -> Callable[[random.Random, str], str]:
    def changed(chance: random.Random, text: str) -> str:
        tokens = TOKEN.findall(text)
        if tokens:
            change(chance, tokens, chance.randrange(len(tokens)))
        return "".join(tokens)

    return changed


def _put_token(chance: random.Random, tokens: list[str], place: int) -> None:
    tokens[place] = chance.choice(ODD_WORDS)


def _swap_tokens(chance: random.Random, tokens: list[str], place: int) -> None:
    other = chance.randrange(len(tokens))
    tokens[place], tokens[other] = tokens[other], tokens[place]


def _drop_token(chance: random.Random, tokens: list[str], place: int) -> None:
    del tokens[place]


def _repeat_token(chance: random.Random, tokens: list[str], place: int) -> None:
    tokens[place] *= chance.choice((2, 3, 1000))


def _change_lines(chance: random.Random, text: str) -> str:
    """Repeat, drop, move or indent a line: a line twice is a key twice."""
    lines = text.splitlines(keepends=True) or [""]
    place, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    match chance.randrange(4):
        case 0:
            lines.insert(other, lines[place])
        case 1:
            del lines[place]
        case 2:
            lines[place], lines[other] = lines[other], lines[place]
        case _:
            lines[place] = " " * chance.choice((1, 2, 5)) + lines[place]
    return "".join(lines)


ON_TEXTS = (*map(_on_tokens, (_put_token, _put_token, _swap_tokens, _drop_token, _repeat_token)), _change_lines)


def _flip(chance: random.Random, data: bytes) -> bytes:
    place = chance.randrange(len(data) + 1)
    return data[:place] + bytes([chance.randrange(256)]) + data[place + 1 :]


def _insert(chance: random.Random, data: bytes) -> bytes:
    place = chance.randrange(len(data) + 1)
    return data[:place] + chance.choice(ODD_BYTES) * chance.choice((1, 1, 50)) + data[place:]


def _cut(chance: random.Random, data: bytes) -> bytes:
    here, there = sorted(chance.randrange(len(data) + 1) for _ in range(2))
    return data[:here] if chance.random() < 0.5 else data[:here] + data[there:]


ON_BYTES = (_flip, _insert, _cut)
