"""Anchors, aliases and tags: what a plan may use of them, and where that ends."""

from __future__ import annotations

from collections.abc import Sequence as SequenceOf
from typing import Any

from netaudit.plan.reading.problems import Problems
from netaudit.plan.reading.raw import DEEPEST, Mapping, Raw, Sequence
from netaudit.plan.scalars.text import path_part, printable, quoted

MOST_ALIASES = 100
"""Aliases in one plan."""
MOST_REPEATED = 100_000
"""Values that the aliases of one plan may repeat."""


class Anchors:
    """The named values of a document, as far as it has been read."""

    def __init__(self, problems: Problems) -> None:
        self._problems = problems
        self._named: dict[str, Raw] = {}
        self._aliases = 0
        self._repeated = 0

    def note(self, event: Any, value: Raw, containers: SequenceOf[Any], key: str | None) -> None:
        """Remember a value of `containers`, the innermost last, under its anchor; a tag is a problem."""
        if event.tag is not None:
            tag = quoted(event.tag.replace("tag:yaml.org,2002:", "!!"))
            message = f"the tag {tag} is not read: leave it out, a plan's values need none"
            self._problems.add(event.start_mark.index, path_of(containers, key), message)
        if event.anchor is not None:
            self._named[event.anchor] = value

    def value(self, event: Any, containers: SequenceOf[Any], key: str | None) -> Raw:
        """What an alias within `containers`, the innermost last, stands for; raises StoppedError."""
        index, alias = event.start_mark.index, quoted(f"*{event.anchor}")
        path = path_of(containers, key)
        self._aliases += 1
        if self._aliases > MOST_ALIASES:
            self._problems.stop(index, f"more than {MOST_ALIASES} aliases: write the values out", path)
        if event.anchor not in self._named:
            self._problems.stop(
                index, f"{alias} names nothing: write '&{printable(event.anchor)}' before its value", path
            )
        value = self._named[event.anchor]
        if any(value is container for container in containers):
            self._problems.stop(index, f"{alias} stands within what it names: write the value out", path)
        self._weigh(value, index, alias, path, len(containers))
        return value

    def _weigh(self, value: Raw, index: int, alias: str, path: tuple[str, ...], level: int) -> None:
        waiting = [(value, level + 1)]
        while waiting:
            each, depth = waiting.pop()
            self._repeated += 1
            if self._repeated > MOST_REPEATED:
                message = f"with {alias} the aliases repeat more than {MOST_REPEATED} values: write fewer"
                self._problems.stop(index, message, path)
            if isinstance(each, str):
                continue
            if depth > DEEPEST:
                message = f"with {alias} more than {DEEPEST} mappings and lists stand within each other"
                self._problems.stop(index, message, path)
            below = each.values() if isinstance(each, Mapping) else each
            waiting.extend((one, depth + 1) for one in below)


def path_of(containers: SequenceOf[Any], key: str | None = None) -> tuple[str, ...]:
    """The way to a value that comes next in the innermost of some open containers; the others are at their newest."""
    above = tuple(
        str(len(container)) if isinstance(container, Sequence) else path_part(next(reversed(container), ""))
        for container in containers[:-1]
    )
    return above if key is None else (*above, path_part(key))
