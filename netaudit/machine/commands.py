"""Running the system's own commands: in plain English, within a deadline and a bound of bytes."""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import NamedTuple

from netaudit.errors import AnswerError
from netaudit.machine.child import Child
from netaudit.machine.clock import Deadline

MOST_BYTES = 4_000_000
"""What a command may say before it is not listened to any more [byte]."""


class Said(NamedTuple):
    """What a command said, and how it ended."""

    text: str
    errors: str
    code: int


def run(argv: Sequence[str], timeout_s: float, stdin: str = "") -> Said:
    """Run a command without a shell, English and without colour; nothing that it starts outlives it.

    Raises MachineError where there is no such command, AnswerError where it does not end in time or says too much.
    """
    environment = {**os.environ, "LC_ALL": "C", "LANG": "C", "NO_COLOR": "1"}
    deadline = Deadline(timeout_s)
    texts = (bytearray(), bytearray())
    with Child(argv, stdin.encode(), environment) as child:
        for pipe, chunk in child.hear(timeout_s):
            texts[pipe].extend(chunk)
            if len(texts[0]) + len(texts[1]) > MOST_BYTES:
                raise AnswerError(f"{argv[0]} said more than {MOST_BYTES // 1_000_000} MB")
            if deadline.over:
                break
        code = child.wait(deadline.left_s)
    if code is None:
        raise AnswerError(f"{argv[0]} did not answer within {timeout_s:g} s")
    text, errors = (each.decode("utf-8", "replace") for each in texts)
    return Said(text, errors, code)
