"""Calling Windows' own libraries: loaded when they are first called, whatever goes wrong an error of this machine."""

from __future__ import annotations

import ctypes

from netaudit.errors import AnswerError, MachineError


def load(name: str) -> ctypes.CDLL:
    """A library of Windows; raises MachineError where there is none."""
    loader = getattr(ctypes, "WinDLL", ctypes.CDLL)
    try:
        library: ctypes.CDLL = loader(name, use_last_error=True)
    except OSError as error:
        raise MachineError(f"{name} cannot be loaded, which Windows has since Vista") from error
    return library


def call(library: ctypes.CDLL, name: str, *arguments: object) -> int:
    """What a function returns, mostly the number of a Windows error, 0 for none.

    Raises MachineError where this Windows lacks the function, AnswerError where it breaks off.
    """
    try:
        function = getattr(library, name)
    except AttributeError as error:
        raise MachineError(f"this Windows has no {name}") from error
    try:
        return int(function(*arguments) or 0)
    except OSError as error:
        raise AnswerError(f"{name} broke off: {error}") from error


def last_error() -> int:
    """The number of the error in the last call of this thread."""
    return int(getattr(ctypes, "get_last_error", ctypes.get_errno)())
