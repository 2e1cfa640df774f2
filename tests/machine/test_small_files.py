"""Small files of the system: what cannot be read is empty."""

import os
from pathlib import Path

import pytest

from netaudit.machine import small_files
from netaudit.machine.small_files import link_of, names_in, text_of


def test_a_text_is_bounded_and_keeps_what_is_no_text(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "odd").write_bytes(b"a\xffbcd")
    monkeypatch.setattr(small_files, "MOST_BYTES", 3)

    assert "a\udcffb" == text_of(tmp_path / "odd")


def test_links_and_names_are_told_without_touching_what_they_mean(tmp_path: Path) -> None:
    (tmp_path / "b").symlink_to("/nowhere")
    (tmp_path / "a").touch()

    assert ("a", "b") == names_in(tmp_path)
    assert "/nowhere" == link_of(tmp_path / "b").replace(os.sep, "/")


@pytest.mark.parametrize("name", ["missing", "folder", "a\0b"])
def test_what_is_not_there_or_is_something_else_is_empty(tmp_path: Path, name: str) -> None:
    (tmp_path / "folder").mkdir()

    assert ("", "", ()) == (text_of(tmp_path / name), link_of(tmp_path / name), names_in(tmp_path / name))
