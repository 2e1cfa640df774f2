"""Nothing of Windows runs here: functions stand in for those of its libraries."""

from __future__ import annotations

import ctypes
from types import SimpleNamespace
from typing import Any

import pytest

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.windows.calls import call, last_error, load


def library(**functions: Any) -> Any:
    return SimpleNamespace(**functions)


def test_a_library_that_is_not_there_is_a_machine_that_cannot_be_asked() -> None:
    with pytest.raises(MachineError, match="no-such-library"):
        load("no-such-library.dll")


def test_what_a_function_returns_is_handed_on() -> None:
    assert 122 == call(library(Ask=lambda size: size), "Ask", 122)
    assert 0 == call(library(Free=lambda: None), "Free")


def test_a_function_that_is_not_there_is_a_machine_that_cannot_be_asked() -> None:
    with pytest.raises(MachineError, match="this Windows has no Ask"):
        call(library(), "Ask")


def test_a_function_that_breaks_off_raises_an_answer_error() -> None:
    """ctypes documentation: on Windows an access violation within a call is raised as OSError."""

    def broken() -> int:
        raise OSError("exception: access violation reading 0x0000000000000000")

    with pytest.raises(AnswerError, match="Ask broke off"):
        call(library(Ask=broken), "Ask")


def test_the_last_error_is_that_of_the_call_before() -> None:
    ctypes.set_errno(11010)

    assert 11010 == last_error()
