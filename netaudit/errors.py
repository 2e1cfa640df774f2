"""What can go wrong, as one small tree; each error knows the exit code it means.

    NetauditError
    ├── InputError      a plan or a call that cannot be understood   exit 2
    └── MachineError    this machine could not be asked              exit 3
        ├── PrivilegeError   it answers that question only with a privilege, which is named
        └── AnswerError      it answered late, not at all, or in a form that cannot be read
            └── SilenceError     it took the question and never answered

A bad cable is never an error: it is a finding.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple


class Problem(NamedTuple):
    """One thing wrong in one input, with its place and its remedy in words."""

    file: str
    """The file as the caller named it."""
    message: str
    """What is wrong, quoting the value, and what would be right."""
    line: int | None = None
    """Line in the file, counted from 1; None when the whole file is meant."""
    column: int | None = None
    """Column in that line, counted from 1."""
    path: tuple[str, ...] = ()
    """Keys from the top of the document down to the value."""

    def __str__(self) -> str:
        place = ":".join(str(part) for part in (self.file, self.line, self.column) if part is not None)
        parts = (place, ".".join(self.path), self.message)
        return _one_line(": ".join(part for part in parts if part))


def _one_line(text: str) -> str:
    """A text whose control characters are written out."""
    return "".join(char if char.isprintable() else char.encode("unicode_escape").decode() for char in text)


class NetauditError(Exception):
    """The root: everything this package raises on purpose."""

    exit_code = 2


class InputError(NetauditError):
    """A plan or a call that cannot be understood: every problem found, in file order."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class MachineError(NetauditError):
    """This machine could not be asked."""

    exit_code = 3


class PrivilegeError(MachineError):
    """This machine answers a question only with a privilege."""

    def __init__(self, needs: str) -> None:
        self.needs = needs
        """The privilege in the system's own words, such as `CAP_NET_RAW (run with sudo)`."""
        super().__init__(f"this needs {needs}")


class AnswerError(MachineError):
    """A question was answered late, not at all, or in a form that cannot be read; the text says which."""


class SilenceError(AnswerError):
    """Somebody took a question and did not answer it within the deadline."""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that is spelt most like `word`, whatever its case; None when nothing comes near."""
    from difflib import get_close_matches  # noqa: PLC0415 - only wrong input pays for it

    by_folded = {candidate.casefold(): candidate for candidate in known}
    close = get_close_matches(word.casefold(), by_folded, n=1, cutoff=0.6)
    return by_folded[close[0]] if close else None
