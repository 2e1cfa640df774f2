"""The cut list of the page: every box with its cuts, and a bar drawn to scale."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from netaudit.model.bill import Box, Bulk, Cut
from netaudit.report.bill.bulk_words import kind, proof, source, uncounted, vessel
from netaudit.report.bill.page.ends import NOWHERE, Ends
from netaudit.report.goods_words import price_text
from netaudit.units import length_text, sold_length_text

BAR_MM = 180.0
"""Width of the bar of the largest box on paper [mm]."""
LETTER_MM = 2.1
"""Room that a letter in a bar takes [mm]."""


class Segment(NamedTuple):
    """A piece of a bar."""

    name: str
    """Empty where the piece is too short for its name."""
    per_cent: float
    """Width, of the bar's own."""


class CutRow(NamedTuple):
    """A piece to cut."""

    cable: str
    ends: Ends
    run: str
    """Length of the run itself."""
    cut: str
    """Length to cut off, waste included."""
    left: str
    """What the box holds after that."""


class BoxPart(NamedTuple):
    """A box."""

    name: str
    """Box or reel, with its number."""
    size: str
    price: str
    left: str
    per_cent: float
    """Width of its bar, of the largest box's."""
    segments: tuple[Segment, ...]
    rest: Segment
    rows: tuple[CutRow, ...]


class BulkPart(NamedTuple):
    """One kind of cable."""

    title: str
    """What is cut, and from what."""
    proof: tuple[str, ...]
    largest: str
    """What the full width of a bar stands for; empty where there is no box."""
    boxes: tuple[BoxPart, ...]
    uncounted: tuple[tuple[str, tuple[str, ...]], ...]
    """Why no box counts some runs, and which."""


def bulk_parts(bulks: Iterable[Bulk], ends: Mapping[str, Ends]) -> Iterator[BulkPart]:
    """Each kind of bulk cable."""
    for bulk in bulks:
        of_box: dict[int, list[Cut]] = defaultdict(list)
        for cut in bulk.cuts:
            of_box[cut.box].append(cut)
        largest_m = max((box.size_m for box in bulk.boxes), default=0.0)
        yield BulkPart(
            f"Cable {kind(bulk)}, solid copper{f', from {source(bulk)}' if bulk.boxes else ''}",
            tuple(proof(bulk)),
            sold_length_text(largest_m) if bulk.boxes else "",
            tuple(_box(box, of_box[box.number], largest_m, ends) for box in bulk.boxes),
            tuple(uncounted(bulk)),
        )


def _box(box: Box, cuts: list[Cut], largest_m: float, ends: Mapping[str, Ends]) -> BoxPart:
    bar_mm = BAR_MM * box.size_m / largest_m
    return BoxPart(
        f"{vessel(box).capitalize()} {box.number}",
        sold_length_text(box.size_m),
        price_text(box.price),
        length_text(box.left_m),
        round(100 * box.size_m / largest_m, 3),
        tuple(_segment(cut.cable, cut.length_m / box.size_m, bar_mm) for cut in cuts),
        _segment(f"{length_text(box.left_m)} left", box.left_m / box.size_m, bar_mm),
        tuple(_rows(cuts, ends)),
    )


def _segment(name: str, share: float, bar_mm: float) -> Segment:
    fits = len(name) * LETTER_MM <= share * bar_mm
    return Segment(name if fits else "", round(100 * share, 3))


def _rows(cuts: Iterable[Cut], ends: Mapping[str, Ends]) -> Iterator[CutRow]:
    for cut in cuts:
        lengths = (length_text(cut.run_m), length_text(cut.length_m), length_text(cut.left_m))
        yield CutRow(cut.cable, ends.get(cut.cable, NOWHERE), *lengths)
