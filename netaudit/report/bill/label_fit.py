"""How a label's text is broken into short lines, and how large these may be printed."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from functools import cache
from typing import NamedTuple

from netaudit.model.moving import Label

SIZES_PT = (16, 14, 12, 11, 10, 9, 8, 7, 6, 5, 4)
"""Sizes of type that are tried, the largest first [pt]."""
LINE_EM = 1.2
"""Height of a line [em]."""
POINTS_PER_MM = 72 / 25.4
HEAD_EM = 1.4
"""Size of a short name of a cable, of the type of the other lines [em]."""
SHORT = 8
"""Letters of a name that is short."""
BOLD = 1.14
"""How much wider bold type is: from memory."""
_BROAD = frozenset("MWmw@%&—")
_NARROW = frozenset(" !'(),-./:;I[]fijlrt|")
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
    fits: bool
    """Whether all of it is on the label at the smallest size at least."""


def fitted(label: Label, width_mm: float, height_mm: float) -> Fit:
    """A label in the largest type in which it fits a space."""
    head, lines = _broken(label)
    head_em = HEAD_EM if len(head) <= SHORT else 1.0
    words_em = tuple(head_em * BOLD * word_em for word_em in _words_em(head)) if head else ()
    lines_em = [_words_em(line.arrow + line.text) for line in lines]
    width_pt, height_pt = width_mm * POINTS_PER_MM, height_mm * POINTS_PER_MM
    for size_pt in SIZES_PT:
        room_em = width_pt / size_pt
        rows = sum(_rows(line_em, room_em) for line_em in lines_em)
        height_em = LINE_EM * (rows + head_em * _rows(words_em, room_em))
        if height_em * size_pt <= height_pt:
            return Fit(head, head_em, lines, size_pt, fits=True)
    return Fit(head, head_em, lines, SIZES_PT[-1], fits=False)


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
        yield Line("", text)


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
