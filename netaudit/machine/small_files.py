"""Small files that a system answers through: the kernel's own texts, never a file on a share."""

from __future__ import annotations

import os
from pathlib import Path

MOST_BYTES = 8_000_000
"""What is read of one file [byte]."""


def text_of(path: Path) -> str:
    """A text, with bytes that are no UTF-8 kept as surrogates; empty where there is none, or it may not be read."""
    try:
        with path.open("rb") as file:
            return file.read(MOST_BYTES).decode("utf-8", "surrogateescape")
    except (OSError, ValueError):
        return ""


def link_of(path: Path) -> str:
    """What a link points at; empty where there is none, or it may not be read."""
    try:
        return os.readlink(path)
    except (OSError, ValueError):
        return ""


def names_in(folder: Path) -> tuple[str, ...]:
    """The names in a folder, in order; empty where there is none, or it may not be read."""
    try:
        return tuple(sorted(os.listdir(folder)))
    except (OSError, ValueError):
        return ()
