"""Answers about limits: tables of published figures, each row with its source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from netaudit.citation import Citation

TopicKind = Literal["phy", "rate", "category", "grade", "cable", "bus", "subject"]
"""phy: a physical layer · grade: of fibre · cable: a made-up one · subject: anything else that has a table."""
Cell = str | float | None
"""Text, a number in the unit of its column, or nothing."""


class Topic(NamedTuple):
    """Something that can be asked about."""

    kind: TopicKind
    names: tuple[str, ...]
    """What it is in the tables; a rate is spelt in bit/s."""
    word: str
    """How it is best asked for."""


class Column(NamedTuple):
    """What stands in one column."""

    name: str
    unit: str | None
    """Unit of its numbers, empty where they have none; None for a column of text."""


class LimitRow(NamedTuple):
    """One limit and where it comes from."""

    cells: tuple[Cell, ...]
    source: Citation


@dataclass(frozen=True, slots=True)
class LimitTable:
    """Some limits of one kind."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[LimitRow, ...]
    """As many cells in each as there are columns."""
    notes: tuple[str, ...] = ()
    """What must be known to read it, a sentence each."""


class IndexLine(NamedTuple):
    """Something that can be asked, and what the answer tells."""

    words: tuple[str, ...]
    about: str


@dataclass(frozen=True, slots=True)
class LimitAnswer:
    """All that was asked about limits."""

    asked: tuple[str, ...]
    """The words, as they are best spelt; empty where nothing in particular was asked."""
    index: tuple[IndexLine, ...]
    """What can be asked; empty where something was."""
    tables: tuple[LimitTable, ...]
