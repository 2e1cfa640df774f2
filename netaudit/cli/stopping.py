"""Ctrl-C that asks for the best found so far; a second one ends the program."""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable
from types import FrameType, TracebackType
from typing import Any

import click


class Stopping:
    """While it is entered, the first Ctrl-C is only remembered, and progress is told on stderr."""

    def __init__(self) -> None:
        self._searching = False
        self._asked = False
        self.ended = False
        """Whether it was meant to end the program; Python may lose that where it stands in the middle of an import."""
        self._before: signal.Handlers | int | Callable[[int, FrameType | None], Any] | None = None

    def __enter__(self) -> Stopping:
        self._before = signal.signal(signal.SIGINT, self._interrupted)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        signal.signal(signal.SIGINT, self._before)

    def searched(self) -> None:
        """From now on it ends the program again."""
        self._searching = False

    def tell(self, line: str) -> None:
        """Tell on stderr how a long search goes."""
        self._searching = True
        click.echo(line, err=True)

    def asked(self) -> bool:
        """Whether somebody wants the best found so far."""
        self._searching = True
        return self._asked

    def _interrupted(self, number: int, frame: FrameType | None) -> None:
        """Remember the first one during a search; end the program otherwise, as Ctrl-C does."""
        if self._asked or not self._searching:
            self.ended = True
            signal.default_int_handler(number, frame)
        self._asked = True
        sys.stderr.write("stopping with the best found so far; Ctrl-C again ends at once\n")
