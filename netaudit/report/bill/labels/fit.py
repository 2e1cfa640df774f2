"""How a label's text is broken into short lines, and how large these may be printed."""

from __future__ import annotations

import unicodedata
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import cache
from typing import NamedTuple

from netaudit.model.moving import Label
from netaudit.report.bill.unbroken import NO_BREAK, unbroken

SIZES_PT = (16, 14, 12, 11, 10, 9, 8, 7, 6, 5, 4)
"""Sizes of type that are tried, the largest first [pt]."""
LINE_EM = 1.2
"""Height of a line [em]."""
POINTS_PER_MM = 72 / 25.4
HEAD_EM = 1.4
"""Size of a short name of a cable, of the type of the other lines [em]."""
SHORT = 8
"""Letters of a name that is short, and printed larger."""
TOGETHER = 16
"""Letters of a name that stays in one row, even if lower lines have to go for it."""
MANY = 1_000
"""Rows that are more than any label has."""
BOLD = 1.14
"""How much wider bold type is: from memory."""
CUT = "…"
"""What stands for the rest of a name that fits in no size."""
_BROAD = frozenset("MWmw@%&—")
_NARROW = frozenset(f"{NO_BREAK} !'(),-./:;I[]fijlrt|")
_ARROW = "> "


class Line(NamedTuple):
    """A line of a label; the arrow stands apart, so that a name in letters from right to left does not turn it."""

    arrow: str
    text: str


class Fit(NamedTuple):
    """A label as it is printed."""

    head: str
    """The cable's name; empty where the text does not begin with it."""
    head_em: float
    """Size of its type, of that of the other lines [em]."""
    lines: tuple[Line, ...]
    size_pt: int
    """Size of its type [pt]."""
    whole: bool
    """Whether all of the text is on the label."""


def fitted(label: Label, width_mm: float, height_mm: float) -> Fit:
    """A label in the largest type in which it fits a space.

    What fits in no size loses its lowest lines first; only then is the name of the cable broken, and at last cut.
    """
    head, lines = _broken(label)
    space = _Space(width_mm * POINTS_PER_MM, height_mm * POINTS_PER_MM)
    fewest = min(len(lines), 0 if head else 1)
    for rows_of_head in (1, MANY) if len(head) <= TOGETHER else (MANY,):
        for kept in range(len(lines), fewest - 1, -1):
            size_pt = space.largest_pt(head, lines[:kept], rows_of_head)
            if size_pt is not None:
                return Fit(head, _head_em(head), lines[:kept], size_pt, kept == len(lines))
    if head:
        return Fit(space.shortened(head), 1.0, (), SIZES_PT[-1], whole=False)
    return Fit("", 1.0, (Line("", space.shortened(lines[0].text)),), SIZES_PT[-1], whole=False)


class _Space(NamedTuple):
    """The space for the text of a label."""

    width_pt: float
    height_pt: float

    def largest_pt(self, head: str, lines: Sequence[Line], rows_of_head: int) -> int | None:
        """The largest type in which a text fits, its head in so many rows at most; None where it fits in none [pt]."""
        head_em = _head_em(head)
        words_em = _bold_em(head, head_em)
        lines_em = [_words_em(line.arrow + line.text) for line in lines]
        for size_pt in SIZES_PT:
            room_em = self.width_pt / size_pt
            rows = sum(_rows(line_em, room_em) for line_em in lines_em)
            head_rows = _rows(words_em, room_em)
            height_em = LINE_EM * (rows + head_em * head_rows)
            if head_rows <= rows_of_head and height_em * size_pt <= self.height_pt:
                return size_pt
        return None

    def shortened(self, text: str) -> str:
        """As much of a text as fits in bold in the smallest type, with a mark where it is cut."""
        fitting = bisect_left(range(len(text)), 1, key=lambda kept: not self._holds(text[:kept] + CUT))
        return text[: max(0, fitting - 1)] + CUT

    def _holds(self, text: str) -> bool:
        rows = _rows(_bold_em(text, 1.0), self.width_pt / SIZES_PT[-1])
        return rows * LINE_EM * SIZES_PT[-1] <= self.height_pt


def _head_em(head: str) -> float:
    """Size of the type of a cable's name, of that of the other lines [em]."""
    return HEAD_EM if len(head) <= SHORT else 1.0


def _bold_em(text: str, size_em: float) -> tuple[float, ...]:
    """Widths of the words of a text in bold type [em]."""
    return tuple(size_em * BOLD * word_em for word_em in _words_em(text)) if text else ()


def _broken(label: Label) -> tuple[str, tuple[Line, ...]]:
    """The cable's name, where the text begins with it, then the near end, the far end, and the rest, a line each."""
    begins = label.text == label.cable or label.text.startswith((f"{label.cable} ", f"{label.cable}\n"))
    head = label.cable if begins else ""
    rest = label.text.removeprefix(head).strip()
    return head, tuple(line for part in rest.splitlines() for line in _ends_apart(part.strip(), label))


def _ends_apart(text: str, label: Label) -> Iterator[Line]:
    near, far = str(label.port), ", ".join(map(str, label.far))
    beyond = text.removeprefix(f"{near} {_ARROW}")
    if beyond != text and beyond.startswith(far):
        yield Line("", near)
        yield Line(_ARROW, far)
        text = beyond.removeprefix(far).strip()
    if text:
        yield Line("", unbroken(text))


def _words_em(text: str) -> tuple[float, ...]:
    """Widths of the words of a line, each with the blank behind it [em]."""
    return tuple(sum(map(_letter_em, word)) + _letter_em(" ") for word in text.split(" "))


def _rows(words_em: Sequence[float], room_em: float) -> int:
    """Rows that words take when each goes where it still fits, and breaks anywhere where it is too long for a row."""
    if not words_em:
        return 0
    rows, used_em = 1, 0.0
    for word_em in words_em:
        if used_em and used_em + word_em > room_em:
            rows, used_em = rows + 1, 0.0
        more = int(word_em // room_em)
        rows, used_em = rows + more, used_em + word_em - more * room_em
    return rows


@cache
def _letter_em(letter: str) -> float:
    """Width of a letter, rather more than common sans-serif type needs [em]: from memory."""
    if letter in _BROAD or unicodedata.east_asian_width(letter) in "WF":
        return 1.1
    if letter in _NARROW:
        return 0.42
    return 0.8 if letter.isupper() else 0.65
