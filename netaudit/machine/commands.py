"""Running the system's own commands: in plain English, within a deadline and a bound of bytes."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Sequence
from typing import NamedTuple

from netaudit.errors import AnswerError, MachineError

MOST_BYTES = 4_000_000
"""What a command may say before it is not listened to any more [byte]."""


class Said(NamedTuple):
    """What a command said, and how it ended."""

    text: str
    errors: str
    code: int


def run(argv: Sequence[str], timeout_s: float, stdin: str = "") -> Said:
    """Run a command without a shell, English and without colour.

    Raises MachineError where there is no such command, AnswerError where it does not end in time or says too much.
    """
    environment = {**os.environ, "LC_ALL": "C", "LANG": "C", "NO_COLOR": "1"}
    try:
        done = subprocess.run(  # noqa: S603 - the words are ours, never a user's shell line
            list(argv), input=stdin.encode(), capture_output=True, timeout=timeout_s, env=environment, check=False
        )
    except FileNotFoundError as error:
        raise MachineError(f"{argv[0]} is not there to be asked") from error
    except subprocess.TimeoutExpired as error:
        raise AnswerError(f"{argv[0]} did not answer within {timeout_s:g} s") from error
    except OSError as error:
        raise MachineError(f"{argv[0]} cannot be run: {error.strerror or error}") from error
    if len(done.stdout) > MOST_BYTES:
        raise AnswerError(f"{argv[0]} said more than {MOST_BYTES // 1_000_000} MB")
    return Said(done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace"), done.returncode)
