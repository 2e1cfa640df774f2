"""Where answers go."""

from __future__ import annotations

from pathlib import Path

import pytest

from netaudit.cli.output import write_text
from netaudit.errors import InputError


def test_a_text_is_written_whole_and_as_utf_8(tmp_path: Path) -> None:
    write_text("café\n", str(tmp_path / "out.txt"))

    assert b"caf\xc3\xa9\n" == (tmp_path / "out.txt").read_bytes()


def test_a_folder_in_place_of_a_file_is_an_input_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="cannot be written"):
        write_text("x", str(tmp_path))
