"""Where answers go."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from netaudit.cli.output import LARGE_BYTES, announce, refuse_overwriting, write_bytes, write_text
from netaudit.errors import InputError


def test_a_text_is_written_whole_and_as_utf_8(tmp_path: Path) -> None:
    write_text("café\n", str(tmp_path / "out.txt"))

    assert b"caf\xc3\xa9\n" == (tmp_path / "out.txt").read_bytes()


def test_a_folder_in_place_of_a_file_is_an_input_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="cannot be written"):
        write_text("x", str(tmp_path))


def test_a_dash_stands_for_the_output(capsys: pytest.CaptureFixture[str]) -> None:
    write_text("answer\n", "-")

    assert "answer\n" == capsys.readouterr().out


def test_a_large_file_is_announced_on_a_terminal_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "large").write_bytes(b"x" * (LARGE_BYTES + 1))
    (tmp_path / "small").write_bytes(b"x")

    announce(str(tmp_path / "large"), "reading")
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    announce(str(tmp_path / "large"), "reading")
    announce(str(tmp_path / "small"), "reading")

    assert f"{tmp_path / 'large'}: reading …\n" == capsys.readouterr().err


def test_the_file_that_was_asked_about_is_refused_as_output(tmp_path: Path) -> None:
    (tmp_path / "plan").write_text("x")

    refuse_overwriting(str(tmp_path / "other"), [str(tmp_path / "plan")])
    with pytest.raises(InputError, match="is read for it"):
        refuse_overwriting(str(tmp_path / "plan"), [str(tmp_path / "plan")])


def test_a_file_keeps_what_it_held_where_the_answer_cannot_be_written_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = tmp_path / "bill.json"
    old.write_text("old", encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(InputError, match="No space left on device"):
        write_text("new", str(old))

    assert "old" == old.read_text(encoding="utf-8")
    assert [old] == list(tmp_path.iterdir())


def test_a_file_that_is_replaced_keeps_its_permissions_and_a_link_still_leads_to_it(tmp_path: Path) -> None:
    real, link = tmp_path / "bill.txt", tmp_path / "link.txt"
    real.write_text("old", encoding="utf-8")
    real.chmod(0o640)
    link.symlink_to(real)
    write_text("new", str(link))

    assert ("new", 0o640, True) == (real.read_text(encoding="utf-8"), real.stat().st_mode & 0o777, link.is_symlink())


def test_a_new_file_has_the_permissions_that_any_new_file_gets(tmp_path: Path) -> None:
    (tmp_path / "usual").touch()
    write_bytes(b"x", str(tmp_path / "bill.xlsx"))

    assert (tmp_path / "usual").stat().st_mode == (tmp_path / "bill.xlsx").stat().st_mode


def test_a_pipe_that_somebody_holds_takes_the_answer_as_it_comes(tmp_path: Path) -> None:
    write_text("new", os.devnull)

    assert os.path.exists(os.devnull)


def test_a_file_that_may_be_written_but_not_replaced_is_written_in_place(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a file of somebody else's in a folder that all may write to."""
    old = tmp_path / "bill.txt"
    old.write_text("old", encoding="utf-8")

    def denied(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "replace", denied)
    write_text("new", str(old))

    assert ("new", [old]) == (old.read_text(encoding="utf-8"), list(tmp_path.iterdir()))


@pytest.mark.skipif(not os.path.exists("/dev/stdout"), reason="this system has no /dev/stdout")
def test_the_output_of_a_pipe_by_its_own_name_is_a_pipe() -> None:
    code = "from netaudit.cli.output import write_text; write_text('answer', '/dev/stdout')"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "answer" == done.stdout
