"""Sheets written to a file, and what is said of one that cannot be read."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from netaudit.errors import InputError

Read = Callable[[str], Any]


@pytest.fixture
def written(tmp_path: Path) -> Callable[[str | bytes], str]:
    """A sheet's file with the text in it, line ends as they are."""

    def write(text: str | bytes) -> str:
        file = tmp_path / "sheet.csv"
        file.write_bytes(text if isinstance(text, bytes) else text.encode())
        return str(file)

    return write


@pytest.fixture
def told(written: Callable[[str | bytes], str]) -> Callable[[Read, str | bytes], list[str]]:
    """Every problem of a sheet as it is printed, without its folder."""

    def problems(read: Read, text: str | bytes) -> list[str]:
        file = written(text)
        with pytest.raises(InputError) as caught:
            read(file)
        return [str(problem).replace(file, "sheet.csv") for problem in caught.value.problems]

    return problems
