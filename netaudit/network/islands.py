"""Islands: things that hang together, joined pair by pair."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Generic, TypeVar

T = TypeVar("T", bound=Hashable)


class Islands(Generic[T]):
    """Which things hang together; a thing that was never joined is an island of its own."""

    def __init__(self) -> None:
        self._above: dict[T, T] = {}

    def of(self, thing: T) -> T:
        """The island of a thing, by the name of one on it, which later joins may change."""
        while (above := self._above.get(thing, thing)) != thing:
            self._above[thing] = self._above.get(above, above)
            thing = self._above[thing]
        return thing

    def join(self, one: T, other: T) -> bool:
        """Make the islands of two things one; False if they are already."""
        near, far = self.of(one), self.of(other)
        if near != far:
            self._above[near] = far
        return near != far
