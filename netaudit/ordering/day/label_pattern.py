"""The language of label patterns: words, and placeholders in braces; a brace itself is written twice."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from netaudit.errors import nearest

LONGEST_WORD = 64
"""Characters of a misspelt placeholder that is compared with the right ones."""
LONGEST_QUOTED = 60
"""Characters of a text that are quoted before the rest is left out."""
MOST_TOLD = 10
"""Faults of one pattern, or texts of one kind, that are told one by one."""
_TOKENS = re.compile(r"\{\{|\}\}|\{[^{}]*\}|[{}]|[^{}]+")
_LONE = ("{", "}")
_BRACES = {"{{": "{", "}}": "}"}


class Piece(NamedTuple):
    """A piece of a pattern: words as they are, or the name of a placeholder."""

    words: str
    value: str | None = None


def faults(pattern: str, placeholders: Sequence[str]) -> tuple[str, ...]:
    """What is wrong with a pattern, a sentence each, where only some placeholders may stand in it."""
    tokens = dict.fromkeys(_TOKENS.findall(pattern))
    wrong = [token for token in tokens if _is_wrong(token, placeholders)]
    return tuple(_fault(token, pattern, placeholders) for token in wrong[:MOST_TOLD])


def pieces(pattern: str) -> tuple[Piece, ...]:
    """The pieces of a pattern without faults."""
    return tuple(
        Piece("", token[1:-1]) if _is_placeholder(token) else Piece(_BRACES.get(token, token))
        for token in _TOKENS.findall(pattern)
    )


def filled(pattern: Iterable[Piece], value_of: Callable[[str], str]) -> str:
    """The text of a pattern; the blank before a value that is empty goes with it."""
    text = ""
    for words, value in pattern:
        part = words if value is None else value_of(value)
        text = text + part if part else text.removesuffix(" ")
    return text.strip()


def quoted(text: str) -> str:
    """A text between quotes, cut where it is long."""
    return f"'{text if len(text) <= LONGEST_QUOTED else text[: LONGEST_QUOTED - 1] + '…'}'"


def _is_wrong(token: str, placeholders: Sequence[str]) -> bool:
    return token in _LONE or (_is_placeholder(token) and token[1:-1] not in placeholders)


def _is_placeholder(token: str) -> bool:
    return token[0] == "{" and token[-1] == "}"


def _fault(token: str, pattern: str, placeholders: Sequence[str]) -> str:
    """What is wrong with a token of a pattern, and what may stand there."""
    choices = ", ".join(f"{{{name}}}" for name in placeholders)
    if token in _LONE:
        remedy = f"write {token * 2!r} for the brace itself; placeholders are {choices}"
        return f"a lone {token!r} in {quoted(pattern)}: {remedy}"
    word = token[1:-1].strip()
    near = nearest(word, placeholders) if len(word) <= LONGEST_WORD else None
    hint = f"; did you mean {{{near}}}?" if near else "."
    return f"{quoted(token)} in {quoted(pattern)} is no placeholder{hint} They are {choices}"
