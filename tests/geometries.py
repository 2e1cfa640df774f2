"""Generated sheets of labels that fit their paper."""

from __future__ import annotations

from hypothesis import strategies as st

from netaudit.report.bill.labels.geometry import LEAST_HEIGHT_MM, LEAST_WIDTH_MM, SIZES_MM, LabelGeometry


@st.composite
def geometries(draw: st.DrawFn) -> LabelGeometry:
    """Sheets in tenths of a millimetre."""
    paper = draw(st.sampled_from(("a4", "letter")))
    columns, width, left, across = draw(_way(int(SIZES_MM[paper][0] * 10), int(LEAST_WIDTH_MM * 10), 8))
    rows, height, top, down = draw(_way(int(SIZES_MM[paper][1] * 10), int(LEAST_HEIGHT_MM * 10), 12))
    return LabelGeometry(
        paper=paper,
        columns=columns,
        rows=rows,
        width_mm=width / 10,
        height_mm=height / 10,
        left_mm=left / 10,
        top_mm=top / 10,
        gap_across_mm=across / 10,
        gap_down_mm=down / 10,
        skip=draw(st.integers(0, columns * rows - 1)),
    )


@st.composite
def _way(draw: st.DrawFn, paper: int, least: int, most: int) -> tuple[int, int, int, int]:
    """Count, size, margin and gap that fit one way, the last three in tenths of a millimetre.

    `least` is the least size, `most` the highest count that leaves room for it.
    """
    count = draw(st.integers(1, most))
    margin = draw(st.integers(0, 200))
    gap = draw(st.integers(0, 40))
    size = draw(st.integers(least, (paper - margin - gap * (count - 1)) // count))
    return count, size, margin, gap
