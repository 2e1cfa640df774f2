"""The one clock: what time it is, how much of a deadline is left, and waiting."""

from __future__ import annotations

import time


def now_s() -> float:
    """A clock that only goes forward [s]."""
    return time.monotonic()


def time_of_day() -> str:
    """The wall clock, for people: 2026-11-25 09:12:44."""
    return time.strftime("%Y-%m-%d %H:%M:%S")


def pause(seconds: float) -> None:
    """Wait; not at all where nothing is left."""
    if seconds > 0:
        time.sleep(seconds)


class Deadline:
    """A stretch of time that begins when it is made."""

    def __init__(self, seconds: float) -> None:
        self._ends_s = now_s() + seconds

    @property
    def left_s(self) -> float:
        """What is left, never less than nothing [s]."""
        return max(0.0, self._ends_s - now_s())

    @property
    def over(self) -> bool:
        """Whether nothing is left."""
        return self.left_s == 0

    def at_most(self, seconds: float) -> float:
        """A wish for time, cut to what is left [s]."""
        return min(seconds, self.left_s)
