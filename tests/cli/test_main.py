"""The command itself: help, wrong calls, Ctrl-C, closed pipes."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

import netaudit.cli.main as command
from netaudit.__main__ import run as run_program


def test_help_lists_every_command_and_imports_none(run) -> None:
    done = run("--help")

    assert 0 == done.code
    assert all(name in done.out for name in command.COMMANDS)


@pytest.mark.parametrize("name", command.COMMANDS)
def test_every_command_has_help(run, name: str) -> None:
    assert 0 == run(name, "--help").code


def test_a_wrong_command_is_a_wrong_call(run) -> None:
    done = run("chekc")

    assert 2 == done.code
    assert "chekc" in done.err


def test_the_version_is_told(run) -> None:
    assert run("--version").out.startswith("netaudit ")


def test_ctrl_c_ends_with_130(run, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("netaudit.audit.audit", interrupted)

    assert 130 == run("check", "good.yaml").code


def test_help_starts_without_the_rooms_behind_it() -> None:
    code = (
        "import sys; sys.argv = ['netaudit', '--help']\n"
        "from netaudit.cli.main import main\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        "print([name for name in ('yaml', 'pydantic', 'networkx', 'rich', 'netaudit.audit') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "[]" == done.stdout.splitlines()[-1]


def test_a_pipe_closed_early_is_no_traceback(run, tmp_path: Path) -> None:
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run(
        [sys.executable, "-m", "netaudit", "check", "good.yaml"],
        cwd=tmp_path, stdout=write, stderr=subprocess.PIPE, text=True, check=False,
    )  # fmt: skip
    os.close(write)

    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr


@pytest.mark.parametrize("arguments", ["check good.yaml", "schema", "--help", "check bad.yaml"])
@pytest.mark.parametrize("redirect", [">&-", ">/dev/full", "2>&-", ">&- 2>&-"])
def test_a_closed_or_full_output_is_no_traceback(run, tmp_path: Path, arguments: str, redirect: str) -> None:
    done = subprocess.run(
        ["/bin/sh", "-c", f"{sys.executable} -m netaudit {arguments} {redirect}"],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip

    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr
    assert done.returncode in (0, 2)


def test_a_stream_that_cannot_write_a_name_is_no_traceback(run, tmp_path: Path) -> None:
    text = (tmp_path / "slow.yaml").read_text(encoding="utf-8").replace("cut-1", "coupé-1")
    (tmp_path / "slow.yaml").write_text(text, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "netaudit", "check", "slow.yaml"],
        cwd=tmp_path, env={**os.environ, "PYTHONIOENCODING": "ascii"}, capture_output=True, text=True, check=False,
    )  # fmt: skip

    assert 1 == done.returncode
    assert "-1 will not hold" in done.stdout
    assert "" == done.stderr


def test_ctrl_c_while_the_program_is_still_being_imported_ends_it_without_a_word(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def interrupted() -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("netaudit.cli.main.main", interrupted)
    with pytest.raises(SystemExit) as end:
        run_program()

    assert (130, "", "") == (end.value.code, *capsys.readouterr())
