"""The questions that each system answers."""

from __future__ import annotations

import inspect

import pytest

from netaudit.machine.linux.system import Linux
from netaudit.machine.macos.system import MacOS
from netaudit.machine.questions import Machine
from netaudit.machine.windows.system import Windows

QUESTIONS = [name for name in vars(Machine) if not name.startswith("_") and callable(getattr(Machine, name))]


@pytest.mark.parametrize("system", [Linux, MacOS, Windows])
@pytest.mark.parametrize("question", QUESTIONS)
def test_every_system_answers_every_question_asked_alike(system: type, question: str) -> None:
    asked, answered = (inspect.signature(getattr(each, question)) for each in (Machine, system))

    assert list(asked.parameters) == list(answered.parameters)
    assert [each.default for each in asked.parameters.values()] == [
        each.default for each in answered.parameters.values()
    ]


def test_there_are_questions() -> None:
    assert {"interfaces", "route", "sessions", "mount_of", "client"} <= set(QUESTIONS)


@pytest.mark.parametrize(("system", "name"), [(Linux, "linux"), (MacOS, "macos"), (Windows, "windows")])
def test_every_system_knows_its_name(system: type, name: str) -> None:
    assert name == system().system
