"""The labels as sheets to print: each stands at its place on the paper, to the tenth of a millimetre."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from netaudit.model.moving import Label
from netaudit.report.bill.labels.fit import HEAD_EM, SIZES_PT, Fit, fitted
from netaudit.report.bill.labels.geometry import SIZES_MM, LabelGeometry
from netaudit.report.bill.rendering import rendered

EDGE_MM = 5.0
"""What printers leave white along the edges of the paper [mm]: common practice, no source."""
INSET_MM = 2.5
"""Between a label's edge and its text [mm]."""
MOST_INSET = 0.1
"""Share of a label's width or height that is left white on each side at most."""
MOST_AT_EDGE = 0.25
"""The same where the paper ends."""


class Band(NamedTuple):
    """A column or a row of labels."""

    start_mm: str
    before_mm: str
    """White before the text [mm]."""
    after_mm: str


class Cell(NamedTuple):
    """A label on a sheet; None where it is used up already."""

    column: int
    row: int
    fit: Fit | None


def label_page(labels: Sequence[Label], geometry: LabelGeometry) -> str:
    """Sheets of labels, row by row from the left, in the order given."""
    across, down = _insets_mm(geometry)
    width_mm = geometry.width_mm - max(map(sum, across))
    height_mm = geometry.height_mm - max(map(sum, down))
    fits = [fitted(label, width_mm, height_mm) for label in labels]
    paper_width_mm, paper_height_mm = SIZES_MM[geometry.paper]
    values: dict[str, object] = {
        "paper": geometry.paper,
        "paper_width_mm": _mm(paper_width_mm),
        "paper_height_mm": _mm(paper_height_mm),
        "width_mm": _mm(geometry.width_mm),
        "height_mm": _mm(geometry.height_mm),
        "columns": [_band(geometry.left_of_mm(place), inset) for place, inset in enumerate(across)],
        "rows": [_band(geometry.top_of_mm(place), inset) for place, inset in enumerate(down)],
        "sizes": SIZES_PT,
        "head_em": HEAD_EM,
        "sheets": tuple(_sheets(fits, geometry)),
        "cut_off": tuple(label for label, fit in zip(labels, fits, strict=True) if not fit.whole),
    }
    return rendered("label_sheets.html.j2", values)


def _sheets(fits: Sequence[Fit], geometry: LabelGeometry) -> Iterator[tuple[Cell, ...]]:
    """The cells of each sheet; those that are used up already come first."""
    if not fits:
        return
    every = [*[None] * geometry.skip, *fits]
    for start in range(0, len(every), geometry.per_sheet):
        of_sheet = every[start : start + geometry.per_sheet]
        yield tuple(
            Cell(place % geometry.columns, place // geometry.columns, fit) for place, fit in enumerate(of_sheet)
        )


def _insets_mm(geometry: LabelGeometry) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """White before and after the text in each column and in each row [mm]."""
    paper_width_mm, paper_height_mm = SIZES_MM[geometry.paper]
    lefts = map(geometry.left_of_mm, range(geometry.columns))
    tops = map(geometry.top_of_mm, range(geometry.rows))
    return (
        [_inset_mm(left, geometry.width_mm, paper_width_mm) for left in lefts],
        [_inset_mm(top, geometry.height_mm, paper_height_mm) for top in tops],
    )


def _inset_mm(start_mm: float, size_mm: float, paper_mm: float) -> tuple[float, float]:
    """White before and after the text: more where the paper ends, since printers do not reach it [mm]."""
    inset_mm, at_edge_mm = min(INSET_MM, size_mm * MOST_INSET), size_mm * MOST_AT_EDGE
    before_mm, after_mm = EDGE_MM - start_mm, EDGE_MM - (paper_mm - start_mm - size_mm)
    return max(inset_mm, min(at_edge_mm, before_mm)), max(inset_mm, min(at_edge_mm, after_mm))


def _band(start_mm: float, inset_mm: tuple[float, float]) -> Band:
    return Band(_mm(start_mm), *map(_mm, inset_mm))


def _mm(length_mm: float) -> str:
    return f"{length_mm:.3f}".rstrip("0").rstrip(".")
