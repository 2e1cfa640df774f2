"""`netaudit new`: answers from a file and from a terminal, and what is never written."""

from __future__ import annotations

import io
import os
import select
import subprocess
import sys
from pathlib import Path

import pytest

import netaudit

PATIENCE_S = 30
CTRL_C = b"\x03"
ON_A_TERMINAL = """\
import fcntl, os, signal, sys, termios
fcntl.ioctl(0, termios.TIOCSCTTY, 0)
signal.alarm(int(sys.argv[2]))
os.execv("/bin/sh", ["/bin/sh", "-c", sys.argv[1]])
"""
"""Makes the input the terminal that Ctrl-C comes from, and runs a command there, not for ever."""


@pytest.fixture
def typed(monkeypatch: pytest.MonkeyPatch):
    """Lays a text into the input."""

    def lay(text: str) -> None:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text.encode())))

    return lay


def test_answers_from_a_file_make_a_plan_that_check_calls_good(run, tmp_path: Path) -> None:
    (tmp_path / "answers.yaml").write_text("{}")
    done = run("new", "room.yaml", "--answers", "answers.yaml")

    assert (0, "room.yaml is written; judge it with: netaudit check room.yaml\n", "") == (done.code, done.out, done.err)
    assert "0 fail, 0 warn" in run("check", "room.yaml").out


def test_a_dash_writes_to_the_output_what_a_file_would_hold(run, tmp_path: Path) -> None:
    (tmp_path / "answers.yaml").write_text("walls: unknown")
    shown = run("new", "-", "--answers", "answers.yaml").out
    run("new", "room.yaml", "--answers", "answers.yaml")

    assert shown == (tmp_path / "room.yaml").read_text(encoding="utf-8")
    assert "# Read the jacket of this cable" in shown
    assert all(len(line) <= 120 for line in shown.splitlines())


def test_a_dash_reads_the_answers_from_the_input(run, typed) -> None:
    typed("name: Boathouse loft")

    assert "name: Boathouse loft\n" in run("new", "-", "--answers", "-").out


def test_a_closed_input_holds_no_answers(run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", None)

    assert (2, "--answers -: the input is closed: name a file instead\n") == run("new", "-", "--answers", "-")[::2]
    assert 2 == run("new", "-").code


def test_wrong_answers_are_told_all_at_once_and_nothing_is_written(run, tmp_path: Path) -> None:
    (tmp_path / "answers.yaml").write_text("seats: 0\nsystems: macoss\nwals: 6A\n")
    done = run("new", "room.yaml", "--answers", "answers.yaml")

    assert 2 == done.code
    assert ["answers.yaml:1:8: seats", "answers.yaml:2:10: systems", "answers.yaml:3:1: wals"] == [
        line.rpartition(": '")[0].split(": '")[0] for line in done.err.splitlines()
    ]
    assert "did you mean 'macos'?" in done.err
    assert "did you mean 'walls'?" in done.err
    assert not (tmp_path / "room.yaml").exists()


def test_a_file_that_exists_is_never_written_over(run, tmp_path: Path) -> None:
    before = (tmp_path / "good.yaml").read_bytes()
    (tmp_path / "answers.yaml").write_text("{}")
    (tmp_path / "dangling.yaml").symlink_to("elsewhere.yaml")

    for name in ("good.yaml", "dangling.yaml", "."):
        done = run("new", name, "--answers", "answers.yaml")
        assert (2, f"{name}: this exists, and `new` writes over nothing: choose another name\n") == (
            done.code,
            done.err,
        )
    assert before == (tmp_path / "good.yaml").read_bytes()
    assert not (tmp_path / "elsewhere.yaml").exists()


def test_a_file_that_appears_meanwhile_is_not_written_over_either(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "answers.yaml").write_text("{}")
    monkeypatch.setattr(os.path, "lexists", lambda _: False)
    before = (tmp_path / "good.yaml").read_bytes()

    assert "cannot be written: File exists" in run("new", "good.yaml", "--answers", "answers.yaml").err
    assert before == (tmp_path / "good.yaml").read_bytes()


def test_a_folder_that_is_missing_is_told_before_anything_is_asked(run) -> None:
    assert (2, "no/room.yaml: there is no folder 'no' to write in: check the path\n") == run("new", "no/room.yaml")[::2]


def test_without_a_terminal_answers_are_needed(run, typed, tmp_path: Path) -> None:
    typed("\n" * 30)
    done = run("new", "room.yaml")

    assert 2 == done.code
    assert "give the answers with --answers FILE" in done.err
    assert not (tmp_path / "room.yaml").exists()


def test_help_names_every_question(run) -> None:
    from netaudit.plan.drafting.questions import QUESTIONS

    assert [] == [question.key for question in QUESTIONS if f"  {question.key} " not in run("new", "--help").out]


def converse(command: str, replies: list[bytes], folder: Path) -> tuple[int, str]:
    """The exit code and the screen of a conversation; each reply is typed once its question has appeared.

    Ctrl-C is pressed again as long as nothing happens, as people do: Python only hears it while it reads.
    """
    pty = pytest.importorskip("pty", reason="terminals are made on Unix alone")
    terminal, other_end = pty.openpty()
    running = subprocess.Popen(
        [sys.executable, "-c", ON_A_TERMINAL, command.replace("netaudit", f"exec {sys.executable} -m netaudit"), str(PATIENCE_S)],
        cwd=folder, stdin=other_end, stdout=other_end, stderr=other_end, start_new_session=True,
    )  # fmt: skip
    os.close(other_end)
    screen, answered = b"", 0
    while part := read_or_end(terminal, replies[answered - 1] if answered else b""):
        screen += part
        while answered < min(screen.count(b"]: "), len(replies)):
            os.write(terminal, replies[answered])
            answered += 1
    os.close(terminal)
    return running.wait(PATIENCE_S), screen.decode(errors="replace").replace("\r", "")


def read_or_end(terminal: int, last: bytes) -> bytes:
    """What is on the screen; nothing once the last program has left the terminal, which Linux tells as an error."""
    while last == CTRL_C and not select.select([terminal], [], [], 0.5)[0]:
        os.write(terminal, CTRL_C)
    try:
        return os.read(terminal, 4096)
    except OSError:
        return b""


def test_on_a_terminal_enter_takes_every_default(run, tmp_path: Path) -> None:
    code, screen = converse("netaudit new room.yaml", [b"\n"] * 30, tmp_path)
    (tmp_path / "answers.yaml").write_text("{}")

    assert 0 == code, screen
    assert run("new", "-", "--answers", "answers.yaml").out == (tmp_path / "room.yaml").read_text(encoding="utf-8")
    assert "How many seats edit, or what are they called? [3]: " in screen


def test_on_a_terminal_a_wrong_answer_is_explained_and_asked_again(run, tmp_path: Path) -> None:
    replies = [
        b"\xe9t\xe9\n",
        b"Loft\n",
        b"?\n",
        b"0\n",
        b"cut, cut\n",
        b"cut, grade\n",
        b"macoss, linux\n",
        b"linux\n",
    ]
    code, screen = converse("netaudit new room.yaml", replies + [b"\n"] * 30, tmp_path)
    plan = netaudit.load(tmp_path / "room.yaml")

    assert 0 == code, screen
    assert "A number from 1 to 64, or names with commas between." in screen
    assert "a whole number from 1 to 64" in screen
    assert "'cut' is named before already" in screen
    assert "did you mean 'macos'?" in screen
    assert "Loft" == plan.name
    assert ["cut", "grade"] == [device.name for device in plan.devices.values() if device.role == "station"]


@pytest.mark.parametrize("end", [CTRL_C, b"\x04"], ids=["Ctrl-C", "Ctrl-D"])
def test_ctrl_c_writes_nothing(run, tmp_path: Path, end: bytes) -> None:
    code, screen = converse("netaudit new room.yaml", [b"\n", b"4\n", end], tmp_path)

    assert 130 == code, screen
    assert screen.endswith("Nothing is written.\n")
    assert not (tmp_path / "room.yaml").exists()


def test_questions_stay_out_of_a_plan_that_goes_into_a_pipe(run, tmp_path: Path) -> None:
    code, screen = converse("netaudit new - > room.yaml", [b"\n"] * 30, tmp_path)

    assert 0 == code, screen
    assert (tmp_path / "room.yaml").read_text(encoding="utf-8").startswith("# A first plan")
