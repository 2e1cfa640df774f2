"""Asking a command of macOS by its full path; what is only wanted beside may stay unanswered."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from netaudit.errors import MachineError
from netaudit.machine import commands

Answer = TypeVar("Answer")

IFCONFIG = "/sbin/ifconfig"
NETSTAT = "/usr/sbin/netstat"
NETWORKSETUP = "/usr/sbin/networksetup"
SCUTIL = "/usr/sbin/scutil"
TABLE_S = 3.0
"""Wait for a command that reads a table of the kernel or of the system's store [s]."""


def text(*argv: str, timeout_s: float = TABLE_S, stdin: str = "") -> str:
    """What a command says; raises as `commands.run` does."""
    return commands.run(argv, timeout_s, stdin).text


def beside(question: Callable[[], Answer]) -> Answer | None:
    """The answer to a question that another answer does not depend on; None where there is none."""
    try:
        return question()
    except MachineError:
        return None
