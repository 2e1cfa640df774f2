"""Where answers go."""

from __future__ import annotations

from pathlib import Path

import pytest

from netaudit.cli.output import LARGE_BYTES, announce, refuse_overwriting, write_text
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
    with pytest.raises(InputError, match="this is the plan"):
        refuse_overwriting(str(tmp_path / "plan"), [str(tmp_path / "plan")])
