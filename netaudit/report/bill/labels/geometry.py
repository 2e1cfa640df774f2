"""How labels stand on a sheet of paper, all in millimetres, and how that is said in one line."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NoReturn, cast, get_args

from netaudit.units import number_text

Paper = Literal["a4", "letter"]

SIZES_MM: Mapping[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height of each paper [mm]. ISO 216, A4; ANSI/ASME Y14.1, size A, 8.5 in x 11 in."""
MM_PER = {"mm": 1.0, "in": 25.4}
SLACK_MM = 1e-6
"""What sums of millimetres may be off by [mm]."""
LEAST_WIDTH_MM = 15.0
LEAST_HEIGHT_MM = 6.0
"""Size of a label on which an id and its two ends can be read [mm]: common practice, no source."""
LONGEST = 80
"""Characters of a refused text that are repeated."""
EXAMPLE = "3x8 70x36 mm from 0x4.5 mm gap 0x0 mm on a4 skip 0"

_NUMBER = r"[0-9]{1,4}(?:\.[0-9]{1,4})?"
_PAIR = rf"(?P<%s>{_NUMBER}) ?[x×] ?(?P<%s>{_NUMBER}) ?(?P<%s>mm|in)"
_HEAD = re.compile(r"(?P<columns>[0-9]{1,3}) ?[x×] ?(?P<rows>[0-9]{1,3}) " + _PAIR % ("width", "height", "unit"))
_PARTS = {
    "from": re.compile(_PAIR % ("left", "top", "unit")),
    "gap": re.compile(_PAIR % ("across", "down", "unit")),
    "on": re.compile("(?P<paper>a4|letter)"),
    "skip": re.compile("(?P<skip>[0-9]{1,6})"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelGeometry:
    """A sheet of equal labels; ValueError, in plain words, where it cannot be."""

    paper: Paper = "a4"
    columns: int = 3
    rows: int = 8
    width_mm: float = 70.0
    """Width of one label [mm]."""
    height_mm: float = 36.0
    """Height of one label [mm]."""
    left_mm: float = 0.0
    """From the left edge of the paper to the first label [mm]."""
    top_mm: float = 4.5
    """From the top edge of the paper to the first label [mm]."""
    gap_across_mm: float = 0.0
    """Between two columns [mm]."""
    gap_down_mm: float = 0.0
    """Between two rows [mm]."""
    skip: int = 0
    """Labels of the first sheet that are used up already."""

    def __post_init__(self) -> None:
        if self.columns < 1 or self.rows < 1:
            raise ValueError(f"{self.columns} x {self.rows} labels: a sheet has at least one column and one row")
        if self.skip not in range(self.per_sheet):
            raise ValueError(f"skip {self.skip}: a sheet has {self.per_sheet} labels, and one at least must be left")
        self._check_sizes()
        width_mm, height_mm = SIZES_MM[self.paper]
        self._check_room("wide", self.left_of_mm(self.columns - 1) + self.width_mm, width_mm)
        self._check_room("high", self.top_of_mm(self.rows - 1) + self.height_mm, height_mm)

    def _check_sizes(self) -> None:
        lengths_mm = (self.width_mm, self.height_mm, self.left_mm, self.top_mm, self.gap_across_mm, self.gap_down_mm)
        if not all(map(math.isfinite, lengths_mm)) or min(lengths_mm) < 0:
            raise ValueError("sizes, margins and gaps of labels are lengths, and none is below zero")
        if self.width_mm < LEAST_WIDTH_MM or self.height_mm < LEAST_HEIGHT_MM:
            raise ValueError(
                f"a label of {number_text(self.width_mm)} x {number_text(self.height_mm)} mm holds nothing that can be "
                f"read: take one of {LEAST_WIDTH_MM:g} x {LEAST_HEIGHT_MM:g} mm at least"
            )

    def _check_room(self, way: str, needed_mm: float, paper_mm: float) -> None:
        if needed_mm > paper_mm + SLACK_MM:
            raise ValueError(
                f"labels, gaps and margin take {number_text(needed_mm)} mm, "
                f"and {self.paper} is {number_text(paper_mm)} mm {way}"
            )

    @property
    def per_sheet(self) -> int:
        """Labels on one sheet."""
        return self.columns * self.rows

    def left_of_mm(self, column: int) -> float:
        """From the left edge of the paper to a column, counted from 0 [mm]."""
        return self.left_mm + column * (self.width_mm + self.gap_across_mm)

    def top_of_mm(self, row: int) -> float:
        """From the top edge of the paper to a row, counted from 0 [mm]."""
        return self.top_mm + row * (self.height_mm + self.gap_down_mm)


def parsed(text: str) -> LabelGeometry:
    """Read one line such as `3x8 70x36 mm from 0x4.5 mm gap 0x0 mm on a4 skip 2`.

    All after the size of a label may be left out: the block of labels is then centred on A4, without gaps.
    Raises ValueError, in plain words, for anything else.
    """
    words = " ".join(text.split()).lower()
    head, *rest = re.split(r" (?=(?:from|gap|on|skip) )", words)
    size = _HEAD.fullmatch(head)
    if size is None:
        _refuse(text)
    columns, rows = int(size["columns"]), int(size["rows"])
    width_mm, height_mm = _pair_mm(size, "width", "height")
    said = _said(text, rest)
    paper = cast("Paper", said["on"]["paper"]) if "on" in said else get_args(Paper)[0]
    across_mm, down_mm = _pair_mm(said["gap"], "across", "down") if "gap" in said else (0.0, 0.0)
    block_mm = (columns * (width_mm + across_mm) - across_mm, rows * (height_mm + down_mm) - down_mm)
    left_mm, top_mm = _pair_mm(said["from"], "left", "top") if "from" in said else _centred_mm(paper, block_mm)
    return LabelGeometry(
        paper=paper,
        columns=columns,
        rows=rows,
        width_mm=width_mm,
        height_mm=height_mm,
        left_mm=left_mm,
        top_mm=top_mm,
        gap_across_mm=across_mm,
        gap_down_mm=down_mm,
        skip=int(said["skip"]["skip"]) if "skip" in said else 0,
    )


def _said(text: str, parts: list[str]) -> dict[str, re.Match[str]]:
    """Each part that is given, by its first word."""
    said: dict[str, re.Match[str]] = {}
    for part in parts:
        word, _, value = part.partition(" ")
        match = _PARTS[word].fullmatch(value)
        if match is None or word in said:
            _refuse(text)
        said[word] = match
    return said


def _pair_mm(match: re.Match[str], first: str, second: str) -> tuple[float, float]:
    """Two lengths that share a unit [mm]."""
    factor = MM_PER[match["unit"]]
    return float(match[first]) * factor, float(match[second]) * factor


def _centred_mm(paper: Paper, block_mm: tuple[float, float]) -> tuple[float, float]:
    """Margins that centre a block on its paper, none where it is too large for it [mm]."""
    left_mm, top_mm = (max(0.0, (of - part) / 2) for of, part in zip(SIZES_MM[paper], block_mm, strict=True))
    return left_mm, top_mm


def _refuse(text: str) -> NoReturn:
    shown = text if len(text) <= LONGEST else f"{text[:LONGEST]}…"
    raise ValueError(
        f"{shown!r} is no sheet of labels; write columns x rows and the size of one label, then what else matters, "
        f"such as `{EXAMPLE}`"
    )
