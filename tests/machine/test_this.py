"""Which machine this is."""

from __future__ import annotations

import sys

import pytest

from netaudit.errors import MachineError
from netaudit.machine.this import this_machine


@pytest.mark.parametrize(
    ("platform", "system"), [("linux", "linux"), ("linux2", "linux"), ("darwin", "macos"), ("win32", "windows")]
)
def test_the_machine_is_that_of_the_platform(monkeypatch: pytest.MonkeyPatch, platform: str, system: str) -> None:
    monkeypatch.setattr(sys, "platform", platform)

    assert system == this_machine().system


def test_another_platform_cannot_be_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "sunos5")

    with pytest.raises(MachineError, match="this machine runs sunos5; a probe needs Linux, macOS or Windows"):
        this_machine()
