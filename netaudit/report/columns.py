"""Rows of text set in columns, and text kept to its line, for the plain forms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence


def aligned(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """A line for each row, each column as wide as its widest cell; nothing trails."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        yield "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()


def one_line(text: str) -> str:
    """A text from elsewhere on one line; whatever a terminal would obey instead of showing is written out."""
    flat = " ".join(text.split())
    if flat.isprintable():
        return flat
    return "".join(each if each.isprintable() else each.encode("unicode_escape").decode() for each in flat)
