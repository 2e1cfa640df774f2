"""PowerShell, asked once for several questions, with nothing of the user's profile."""

from __future__ import annotations

import os
from collections.abc import Mapping

from netaudit.errors import MachineError
from netaudit.machine.commands import run
from netaudit.machine.parse.windows.script import Query, decoded, encoded, script_for

TIMEOUT_S = 15.0
"""Longest wait for all answers of one call: a cold start alone takes seconds [s]."""


def ask(*queries: Query) -> Mapping[str, object]:
    """The answers by the names of their questions.

    Raises MachineError where there is no PowerShell, AnswerError where it is late, silent or cannot be read.
    """
    said = run(command_line(script_for(queries)), TIMEOUT_S)
    if said.code and not said.text.strip():
        raise MachineError(f"PowerShell ended with code {said.code} and no answer")
    return decoded(said.text)


def command_line(script: str) -> tuple[str, ...]:
    """The call: by its full path, so that nothing of that name elsewhere is run."""
    root = os.environ.get("SYSTEMROOT", r"C:\Windows")
    program = rf"{root}\System32\WindowsPowerShell\v1.0\powershell.exe"
    return (program, "-NoProfile", "-NonInteractive", "-EncodedCommand", encoded(script))
