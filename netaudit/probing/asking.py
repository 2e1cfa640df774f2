"""Asking without falling over: a question that is not answered is noted with what would answer it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from netaudit.errors import MachineError, PrivilegeError
from netaudit.machine.clock import Deadline
from netaudit.model.observation import Skipped

Answer = TypeVar("Answer")


class Notebook:
    """The questions that were not answered, within one deadline for all."""

    def __init__(self, deadline: Deadline) -> None:
        self.deadline = deadline
        self._skipped: dict[Skipped, None] = {}

    @property
    def skipped(self) -> tuple[Skipped, ...]:
        """What was not answered, each once, in order."""
        return tuple(self._skipped)

    def ask(self, what: str, rules: tuple[str, ...], question: Callable[[], Answer]) -> Answer | None:
        """The answer to a question; None, and a note, where there is none.

        Parameters: the question as a noun phrase; the rules that want the answer.
        """
        if self.deadline.over:
            self.note(what, rules, "the time of the probe was up", "probe again")
            return None
        try:
            return question()
        except PrivilegeError as error:
            self.note(what, rules, f"it is told only with {error.needs}", f"probe with {error.needs}")
        except MachineError as error:
            self.note(what, rules, str(error), "probe again, or look there by hand")
        return None

    def note(self, what: str, rules: tuple[str, ...], why: str, remedy: str) -> None:
        """Note a question that is not answered."""
        self._skipped[Skipped(what, why, remedy, rules)] = None
