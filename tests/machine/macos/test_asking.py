"""Asking a command of macOS."""

from __future__ import annotations

import pytest
from mac_desk import said, sit_down

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine.macos.asking import SCUTIL, beside, text


def test_a_command_is_given_its_words_and_its_input(monkeypatch: pytest.MonkeyPatch) -> None:
    desk = sit_down(monkeypatch, {"scutil": said("  No such key\n")})

    assert "  No such key\n" == text(SCUTIL, stdin="show State:/x\n")
    assert ["scutil <<< show State:/x"] == desk.asked


@pytest.mark.parametrize("error", [AnswerError("late"), PrivilegeError("root")])
def test_what_is_only_wanted_beside_may_stay_unanswered(error: Exception) -> None:
    def fails() -> str:
        raise error

    assert beside(fails) is None
    assert "yes" == beside(lambda: "yes")
