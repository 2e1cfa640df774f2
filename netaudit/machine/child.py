"""A process of our own: it is heard within a time, and it can be left at any time, even where it cannot be killed."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import IO, Self

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.clock import Deadline, pause
from netaudit.machine.hearing import listen_to

ANSWERS = 0
"""The pipe on which a child answers; the other one brings its errors."""
GRACE_S = 1.0
"""How long a killed process is waited for. One that hangs in the kernel outlives it and is left [s]."""
POLL_S = 0.005
"""How often it is looked at whether a child has ended [s]."""
GLANCE_S = 0.05
"""How often a silent child is looked at, whether it still lives [s]."""
LINE_BYTES = 65_536
"""The longest line that a child may answer [byte]."""
_HOME = str(Path(__file__).parents[2])
_left: list[subprocess.Popen[bytes]] = []


class Child:
    """A process in a session of its own; whatever it started goes when it is left."""

    def __init__(self, argv: Sequence[str], stdin: bytes = b"", environment: Mapping[str, str] | None = None) -> None:
        """Raises MachineError where it cannot be started."""
        self._process = _started(argv, stdin, environment)
        pipes = [pipe for pipe in (self._process.stdout, self._process.stderr) if pipe is not None]
        self._hearing = listen_to(pipes)
        self.silent = False
        """Whether it has said all that it will ever say."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.end()

    def hear(self, timeout_s: float) -> Iterator[tuple[int, bytes]]:
        """Chunks as they come, each with the pipe that brought it, until the time is over or the child has ended."""
        deadline = Deadline(timeout_s)
        while not self.silent:
            lives = self._process.poll() is None
            heard = self._hearing.hear(deadline.at_most(GLANCE_S) if lives else 0)
            self.silent = not self._hearing.open or not (heard or lives)
            yield from heard
            if deadline.over:
                return

    def wait(self, timeout_s: float) -> int | None:
        """Its exit code; None where it has not ended within that time."""
        deadline = Deadline(timeout_s)
        while self._process.poll() is None and not deadline.over:
            pause(deadline.at_most(POLL_S))
        return self._process.returncode

    def end(self) -> None:
        """Kill it and all that it started, and close everything; one that cannot be killed is left behind."""
        _kill(self._process)
        self._hearing.close()
        if self.wait(GRACE_S) is None:
            _left.append(self._process)


class Lines:
    """The lines that a child answers, as they come; a last one without an end is no answer."""

    def __init__(self, child: Child) -> None:
        self._child = child
        self._rest = b""

    def within(self, timeout_s: float) -> Iterator[str]:
        """Whole lines without their ends, until the time is over or the child has ended.

        Raises AnswerError where a line never ends.
        """
        for pipe, chunk in self._child.hear(timeout_s):
            if pipe == ANSWERS:
                *whole, self._rest = (self._rest + chunk).split(b"\n")
                yield from (line.decode("utf-8", "replace") for line in whole)
            if len(self._rest) > LINE_BYTES:
                raise AnswerError("a line that was answered does not end")


def python_argv(module: str, *words: str) -> list[str]:
    """The command that runs `main(words)` of one of this package's modules, in a bare interpreter.

    Raises MachineError where this interpreter does not know where it lies.
    """
    if not sys.executable:
        raise MachineError("the Python that runs this cannot be started a second time")
    code = f"import sys; sys.path.append(sys.argv[1]); from {module} import main; main(sys.argv[2:])"
    return [sys.executable, "-I", "-S", "-c", code, _HOME, *words]


def _started(argv: Sequence[str], stdin: bytes, environment: Mapping[str, str] | None) -> subprocess.Popen[bytes]:
    try:
        with _file_of(stdin) as words:
            return subprocess.Popen(  # noqa: S603 - the words are ours, never a user's shell line
                list(argv),
                stdin=words,
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
                bufsize=0,
                env=environment,
                start_new_session=True,
            )
    except FileNotFoundError as error:
        raise MachineError(f"{argv[0]} is not there to be asked") from error
    except (OSError, ValueError) as error:
        raise MachineError(f"{argv[0]} cannot be run: {getattr(error, 'strerror', None) or error}") from error


@contextmanager
def _file_of(stdin: bytes) -> Iterator[IO[bytes] | int]:
    if not stdin:
        yield subprocess.DEVNULL
        return
    from tempfile import TemporaryFile  # noqa: PLC0415 - few children are told anything

    with TemporaryFile() as words:
        words.write(stdin)
        words.seek(0)
        yield words


def _kill(process: subprocess.Popen[bytes]) -> None:
    if sys.platform == "win32":
        process.kill()
        return
    try:
        os.killpg(process.pid, signal.SIGKILL)
    except (ProcessLookupError, PermissionError):
        process.kill()
