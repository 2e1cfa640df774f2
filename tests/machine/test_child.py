"""A process of our own: heard within a time, ended on every way out, left where it cannot be killed."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from netaudit.errors import AnswerError, MachineError
from netaudit.machine import child as room
from netaudit.machine.child import Child, Lines, python_argv


def python(code: str) -> list[str]:
    return [sys.executable, "-I", "-S", "-c", code]


def lives(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    stat = Path(f"/proc/{process}/stat")
    return not (stat.exists() and stat.read_text().rpartition(")")[2].split()[0] == "Z")


def test_lines_come_whole_and_an_unfinished_one_is_no_answer() -> None:
    with Child(python("print('one'); print('two', end='')")) as child:
        said = list(Lines(child).within(20))
        code = child.wait(20)

    assert (["one"], 0, True) == (said, code, child.silent)


def test_errors_are_no_answers() -> None:
    with Child(python("import sys; print('bad', file=sys.stderr); print('good')")) as child:
        assert ["good"] == list(Lines(child).within(20))


def test_lines_that_came_in_two_stretches_of_time_are_one_row() -> None:
    with Child(python("import sys\nfor line in ('a', 'b', 'c'): print(line, flush=True)\nsys.stdin.read()")) as child:
        lines = Lines(child)
        said: list[str] = []
        while not child.silent:
            said += lines.within(0.001)

    assert ["a", "b", "c"] == said


def test_a_line_without_end_is_not_waited_for() -> None:
    babbler = python("import sys\nwhile True: sys.stdout.write('x' * 9999)")
    with Child(babbler) as child, pytest.raises(AnswerError, match="does not end"):
        list(Lines(child).within(20))


def test_one_that_never_stops_talking_is_not_heard_for_ever() -> None:
    with Child(python("while True: print('x')")) as child:
        said = sum(1 for _ in Lines(child).within(0.05))

    assert said > 0


def test_what_it_is_told_arrives() -> None:
    with Child(python("import sys; print(len(sys.stdin.read()))"), b"x" * 300_000) as child:
        assert ["300000"] == list(Lines(child).within(20))


@pytest.mark.skipif(os.name != "posix", reason="sessions are a matter of POSIX")
def test_everything_it_started_ends_with_it() -> None:
    code = "import subprocess, sys\nprint(subprocess.Popen([sys.executable, '-c', 'input()'], stdin=subprocess.PIPE).pid, flush=True)\nimport signal; signal.pause()"
    with Child(python(code)) as child:
        lines = Lines(child)
        grandchild = int(next(lines.within(20)))
        assert lives(grandchild)

    while lives(grandchild):
        pass
    assert child.wait(0) == -signal.SIGKILL


def test_an_error_on_the_way_ends_it_too() -> None:
    with pytest.raises(KeyboardInterrupt), Child(python("while True: pass")) as child:
        raise KeyboardInterrupt

    assert child.wait(0) is not None


def test_one_that_cannot_be_killed_is_left_and_not_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """A process that hangs in the kernel ignores every signal: here none is sent."""
    monkeypatch.setattr(room, "_kill", lambda process: None)
    monkeypatch.setattr(room, "GRACE_S", 0.01)
    monkeypatch.setattr(room, "_left", left := [])
    with Child(python("import sys, signal; signal.pause()")) as child:
        assert child.wait(0) is None

    (process,) = left
    assert process.poll() is None
    process.kill()
    assert process.wait(20) == -signal.SIGKILL


@pytest.mark.parametrize(
    ("argv", "words"),
    [(["/nowhere/at-all"], "is not there"), (["/"], "cannot be run"), (["a\0b"], "cannot be run")],
)
def test_what_cannot_be_started_is_a_machine_that_cannot_be_asked(argv: list[str], words: str) -> None:
    with pytest.raises(MachineError, match=words):
        Child(argv)


def test_a_module_of_this_package_runs_in_a_bare_interpreter() -> None:
    """Nothing of the user's environment or site-packages gets in: `-I -S` of the Python documentation."""
    shown = subprocess.run(
        python_argv("netaudit.machine.reader", "read", "/nowhere", "1", "1"),
        capture_output=True,
        text=True,
        check=True,
        cwd="/",
    )

    assert '{"failed": "No such file or directory"}\n' == shown.stdout
    assert "" == shown.stderr


def test_an_interpreter_that_is_unknown_cannot_be_started_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "executable", "")

    with pytest.raises(MachineError, match="second time"):
        python_argv("netaudit.machine.reader")
