"""Whole names: whether a text holds all of some names, and not only as a part of longer ones."""

from __future__ import annotations

from collections.abc import Iterable


def names_all(text: str, names: Iterable[str]) -> bool:
    """Whether a text holds each of some names as a whole: `core/11` does not hold `core/1`."""
    for name in sorted(names, key=len, reverse=True):
        at = _whole(text, name)
        if at is None:
            return False
        text = f"{text[:at]}\n{text[at + len(name) :]}"
    return True


def _whole(text: str, name: str) -> int | None:
    """Where a name stands in a text with no letter or digit before or after it; None where it does not."""
    at = text.find(name)
    while at >= 0:
        before, after = text[:at][-1:], text[at + len(name) :][:1]
        if not before.isalnum() and not after.isalnum():
            return at
        at = text.find(name, at + 1)
    return None
