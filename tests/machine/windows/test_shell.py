"""Nothing of Windows runs here: the call is looked at, and small programs of this system stand in for PowerShell."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from windowsroom import capture, spoken

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.windows import queries, shell
from netaudit.machine.windows.shell import ask, command_line

Stand = Callable[[str], None]


@pytest.fixture
def stand_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Stand:
    """Makes a shell script answer in PowerShell's place."""

    def put(body: str) -> None:
        program = tmp_path / "stand-in"
        program.write_text(f"#!/bin/sh\n{body}\n")
        program.chmod(0o755)
        monkeypatch.setattr(shell, "command_line", lambda script: (str(program),))

    return put


def test_powershell_is_called_by_its_full_path_without_profile_or_questions(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SYSTEMROOT", "D:\\Windows")
    program, *options, _ = command_line("dir")

    assert "D:\\Windows\\System32\\WindowsPowerShell\\v1.0\\powershell.exe" == program
    assert ["-NoProfile", "-NonInteractive", "-EncodedCommand"] == options


def test_the_answer_of_the_script_is_handed_on(stand_in: Stand) -> None:
    answers = capture("mappings")
    stand_in(f"printf '%s' '{spoken(answers)}'")

    assert answers == ask(queries.MAPPINGS)


def test_a_machine_without_powershell_cannot_be_asked() -> None:
    with pytest.raises(MachineError, match=r"powershell\.exe is not there"):
        ask(queries.MAPPINGS)


def test_a_silent_powershell_raises_an_answer_error(stand_in: Stand) -> None:
    stand_in("exit 0")

    with pytest.raises(AnswerError, match="without an answer"):
        ask(queries.MAPPINGS)


def test_a_powershell_that_ends_with_an_error_says_with_which(stand_in: Stand) -> None:
    stand_in("exit 64")

    with pytest.raises(MachineError, match="code 64"):
        ask(queries.MAPPINGS)


def test_a_late_powershell_is_not_waited_for(stand_in: Stand, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shell, "TIMEOUT_S", 0.2)
    stand_in("exec sleep 30")

    with pytest.raises(AnswerError, match=r"0\.2 s"):
        ask(queries.MAPPINGS)
