"""Running commands: English, bounded in time and bytes, and nothing that they start outlives them."""

import os
import sys
import tracemalloc

import pytest

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.commands import MOST_BYTES, Said, run


def python(code: str) -> list[str]:
    return [sys.executable, "-I", "-S", "-c", code]


def test_what_it_says_its_errors_and_its_code_are_told_apart() -> None:
    said = run(python("import sys; print('out'); print('err', file=sys.stderr); sys.exit(3)"), 20)

    assert Said(f"out{os.linesep}", f"err{os.linesep}", 3) == said


def test_it_is_asked_in_plain_english_without_colour(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LC_ALL", "de_DE.UTF-8")
    said = run(python("import os; print(*[os.environ[name] for name in ('LC_ALL', 'LANG', 'NO_COLOR')])"), 20)

    assert ["C", "C", "1"] == said.text.split()


def test_it_can_be_told_something_and_else_finds_nothing_to_read() -> None:
    code = "import sys; print(sys.stdin.read().upper())"

    assert ["SHOW", ""] == [run(python(code), 20, told).text.strip() for told in ("show", "")]


def test_bytes_that_are_no_text_do_not_stop_it() -> None:
    said = run(python("import sys; sys.stdout.buffer.write(b'a\\xffb')"), 20)

    assert "a\ufffdb" == said.text


def test_one_that_is_late_is_not_waited_for() -> None:
    with pytest.raises(AnswerError, match=r"did not answer within 0\.2 s"):
        run(python("import signal; signal.pause()"), 0.2)


def test_one_that_closes_its_mouth_and_goes_on_is_late_too() -> None:
    with pytest.raises(AnswerError, match="did not answer"):
        run(python("import os, signal; os.close(1); os.close(2); signal.pause()"), 0.3)


@pytest.mark.parametrize("stream", ["stdout", "stderr"])
def test_one_that_babbles_is_cut_off_while_it_runs_and_is_never_kept_whole(stream: str) -> None:
    code = f"import sys\nwhile True: sys.{stream}.write('x' * 65536)"
    tracemalloc.start()
    try:
        with pytest.raises(AnswerError, match="more than 4 MB"):
            run(python(code), 60)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()

    assert peak < 3 * MOST_BYTES


@pytest.mark.skipif(os.name != "posix", reason="sessions are a matter of POSIX")
def test_a_child_that_it_leaves_behind_does_not_hold_its_answer() -> None:
    """The child has inherited the pipe, and would keep it open for ever."""
    code = (
        "import subprocess, sys; subprocess.Popen([sys.executable, '-c', 'import signal; signal.pause()']); print('hi')"
    )

    assert Said("hi\n", "", 0) == run(python(code), 60)


def test_a_command_that_is_not_there_cannot_be_asked() -> None:
    with pytest.raises(MachineError, match="nowhere-at-all is not there"):
        run(["nowhere-at-all"], 1)
