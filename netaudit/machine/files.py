"""Reading and writing one file on a share, bounded in time and bytes, by a child that can be killed and left."""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterator, Mapping
from types import TracebackType
from typing import Literal, NamedTuple, Self

from netaudit.errors import AnswerError
from netaudit.machine.child import Child, Lines, python_argv
from netaudit.machine.clock import Deadline

REMOVE_S = 2.0
"""How long one try to remove the test file may take once its writer was killed [s]."""
REMOVE_TRIES = 2
"""A share that still takes in what was written may refuse at first; common practice, no source."""
READER = "netaudit.machine.reader"


class Step(NamedTuple):
    """One step of a transfer."""

    bytes: int
    """None of them where a writer waits until the storage has everything."""
    seconds: float


def pick(folder: str, least_bytes: int, timeout_s: float) -> str | None:
    """The largest file in a folder, two levels deep, that has so many bytes; None where none is large enough.

    A few hundred entries are looked at. A file stands for itself. Raises AnswerError where the share is silent or
    forbids it.
    """
    found = None
    with _child("pick", folder, str(least_bytes)) as child:
        deadline = Deadline(timeout_s)
        for said in _objects(Lines(child), timeout_s):
            match said:
                case {"candidate": str(path)}:
                    found = path
                case {"failed": str(words)}:
                    raise AnswerError(f"{folder} cannot be looked into: {words}")
        ended = child.wait(deadline.left_s) is not None
    if found is None and not ended:
        raise AnswerError(f"{folder} did not answer within {timeout_s:g} s")
    return found


class Transfer:
    """A file on its way. Leaving it ends it, and removes what was written; it never waits for a share that hangs."""

    def __init__(self, path: str, direction: Literal["read", "write"], most_bytes: int, step_bytes: int) -> None:
        """Begin to read a file, or to write a new one beside or into `path`.

        Raises MachineError where no child can be started.
        """
        self._path, self._name = path, f".netaudit-{secrets.token_hex(16)}"
        self._writes = direction == "write"
        words = [direction, path, str(most_bytes), str(step_bytes), *([self._name] if self._writes else [])]
        self._child = _child(*words)
        self._lines = Lines(self._child)
        self._code: int | None = None
        self.failed: str | None = None
        """Why it could not go on, in words."""
        self.cpu_share: float | None = None
        """Share of one processor core that it took here [0 to 1]; None before the first step."""
        self.left: str | None = None
        """The test file where it could not be removed again; known once the transfer is left."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._child.end()
        if self._writes and self._code != 0:
            self._remove()

    @property
    def done(self) -> bool:
        """Whether it is over: whole, or failed."""
        return self._code is not None

    def steps(self, timeout_s: float) -> list[Step]:
        """The steps that were made within that time, and before it since the last look."""
        deadline = Deadline(timeout_s)
        found = [step for said in _objects(self._lines, timeout_s) if (step := self._heard(said)) is not None]
        if self._child.silent:
            self._code = self._child.wait(deadline.left_s)
            if self._code and self.failed is None:
                self.failed = "the process that reads and writes broke off"
        return found

    def _heard(self, said: Mapping[str, object]) -> Step | None:
        match said:
            case {"step": [int(moved), float(seconds)], "cpu_share": float(share)}:
                self.cpu_share = share
                return Step(moved, seconds)
            case {"failed": str(words)}:
                self.failed = words
        return None

    def _remove(self) -> None:
        """Remove the test file of a writer that was killed."""
        if not any(self._removed() for _ in range(REMOVE_TRIES)):
            self.left = f"{self._path.rstrip('/')}/{self._name}"

    def _removed(self) -> bool:
        """Try to remove it by another child, for the share may be dead; whether it is gone."""
        with _child("remove", self._path, self._name) as child:
            deadline = Deadline(REMOVE_S)
            said = list(_objects(Lines(child), REMOVE_S))
            return not said and child.wait(deadline.left_s) == 0


def _child(*words: str) -> Child:
    return Child(python_argv(READER, *words))


def _objects(lines: Lines, timeout_s: float) -> Iterator[Mapping[str, object]]:
    for line in lines.within(timeout_s):
        try:
            said = json.loads(line)
        except (ValueError, RecursionError):
            continue
        if isinstance(said, dict):
            yield said
