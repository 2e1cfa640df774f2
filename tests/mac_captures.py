"""What the commands of macOS say, written from their published formats; nothing here was taken from a machine."""

from __future__ import annotations

from pathlib import Path

CAPTURES = Path(__file__).parent / "captures" / "macos"


def capture(name: str) -> str:
    """A capture by its file's name."""
    return (CAPTURES / name).read_text(encoding="utf-8")
