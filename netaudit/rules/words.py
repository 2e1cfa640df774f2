"""Words that rules share: steps in a sentence, and the verb for some things."""

from __future__ import annotations

from collections.abc import Iterable


def steps_text(steps: Iterable[str]) -> str:
    """Steps of which one is enough, as a sentence: Use a shorter cord, or move the switch."""
    text = ", or ".join(steps)
    return f"{text[0].upper()}{text[1:]}."


def are(things: Iterable[object]) -> str:
    """The verb for some things: is, are."""
    return "is" if len(list(things)) == 1 else "are"
