"""The end of a search: time is up, or the caller has had enough.

Calculations read no clock, so that the same input gives the same numbers; only the room of the machine holds one. A
limit of time still has to end a search. So each search sets a timer: a thread that sleeps until the time is up, does
nothing but say so, and ends with the search.
"""

from __future__ import annotations

from collections.abc import Callable
from threading import TIMEOUT_MAX, Event, Timer
from types import TracebackType
from typing import Self


class Over(Exception):  # noqa: N818 - it is no error
    """The search ends here with the best that it has."""


class Watch:
    """Knows when to end; inside its `with` block the time runs."""

    def __init__(self, limit_s: float, stop: Callable[[], bool]) -> None:
        self._stop = stop
        self._expired = Event()
        self._timer = Timer(min(max(limit_s, 0.0), TIMEOUT_MAX), self._expired.set)
        self._timer.daemon = True
        self._at_once = not limit_s > 0
        self.stopped = False

    def __enter__(self) -> Self:
        if self._at_once:
            self._expired.set()
        self._timer.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._timer.cancel()
        self._timer.join()

    def over(self) -> bool:
        """Whether the search has to end; asks the caller, in the caller's own thread."""
        self.stopped = self.stopped or self._stop()
        return self.stopped or self._expired.is_set()

    def check(self) -> None:
        """Go on.

        Raises:
            Over: The search has to end.

        """
        if self.over():
            raise Over
