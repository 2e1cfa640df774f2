"""Reads the tables beside this file: rows of text, numbers that may be empty, and the source of each row."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any, cast, get_args

from netaudit.citation import Citation, Standing

__all__ = ["Citation", "Row", "sources", "table"]

FOLDER = Path(__file__).parent
STANDINGS: tuple[str, ...] = get_args(Standing)
SOURCE_KEYS = frozenset({"document", "clause", "seen", "standing"})


class Row:
    """One row of a table, which knows its place when something in it is wrong."""

    __slots__ = ("_cells", "_place")

    def __init__(self, place: str, cells: Mapping[str, str]) -> None:
        self._place = place
        self._cells = cells

    def text(self, column: str) -> str:
        """The cell as written; ValueError if it is empty or the column is missing."""
        value = self._cells.get(column)
        if not value:
            raise ValueError(f"{self._place}: no {column}")
        return value

    def optional_text(self, column: str) -> str | None:
        """The cell as written; None if it is empty."""
        return self._cells[column] or None

    def number(self, column: str) -> float:
        """The cell as a number; ValueError if it is empty or not one."""
        return float(self.text(column))

    def optional_number(self, column: str) -> float | None:
        """The cell as a number; None if it is empty."""
        value = self._cells[column]
        return float(value) if value else None

    def whole(self, column: str) -> int:
        """The cell as a whole number; ValueError if it is empty or not one."""
        return int(self.text(column))

    def optional_whole(self, column: str) -> int | None:
        """The cell as a whole number; None if it is empty."""
        value = self._cells[column]
        return int(value) if value else None

    def citation(self, column: str = "source") -> Citation:
        """The source that the cell names; ValueError if it names none of sources.toml."""
        key = self.text(column)
        try:
            return sources()[key]
        except KeyError:
            raise ValueError(f"{self._place}: no source {key!r} in sources.toml") from None

    def optional_citation(self, column: str) -> Citation | None:
        """The source that the cell names; None if it is empty."""
        return self.citation(column) if self._cells[column] else None


def table(name: str) -> Iterator[Row]:
    """The rows of one table, top to bottom."""
    with (FOLDER / name).open(encoding="utf-8", newline="") as lines:
        reader = csv.DictReader(lines, strict=True)
        for cells in reader:
            if None in cells or None in cells.values():
                raise ValueError(f"{name}:{reader.line_num}: {len(reader.fieldnames or ())} cells are due")
            yield Row(f"{name}:{reader.line_num}", cells)


@cache
def sources() -> Mapping[str, Citation]:
    """Every source by its key; ValueError if one lacks a document or has no proper standing."""
    with (FOLDER / "sources.toml").open("rb") as file:
        return {key: _citation(key, entry) for key, entry in tomllib.load(file).items()}


def _citation(key: str, entry: Mapping[str, Any]) -> Citation:
    if not entry.get("document") or entry.get("standing") not in STANDINGS or entry.keys() - SOURCE_KEYS:
        raise ValueError(f"sources.toml: {key}: needs a document and a standing, and may have a clause and where seen")
    seen = entry.get("seen")
    document = f"{entry['document']}, as given by {seen}" if seen else str(entry["document"])
    return Citation(document, entry.get("clause"), cast("Standing", entry["standing"]))
