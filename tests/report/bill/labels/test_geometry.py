"""Sheets of labels: what fits the paper, and how one is said."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from geometries import geometries
from hypothesis import given, settings

from netaudit.report.bill.labels.geometry import SIZES_MM, LabelGeometry, parsed


def test_paper_has_its_standard_size() -> None:
    """ISO 216: A0 is 1 m² in the ratio 1 to √2, each next size is halved across and rounded down to millimetres.

    Letter is 8.5 in x 11 in: ANSI/ASME Y14.1, size A.
    """
    a0_mm = (1000 / 2**0.25, 1000 * 2**0.25)
    a4_mm = (math.floor(a0_mm[0] / 4 + 0.2), math.floor(a0_mm[1] / 4 + 0.2))

    assert a4_mm == SIZES_MM["a4"]
    assert (8.5 * 25.4, 11 * 25.4) == pytest.approx(SIZES_MM["letter"])


def test_usual_sheet_is_three_by_eight_on_a4_and_fills_its_width() -> None:
    usual = LabelGeometry()

    assert 24 == usual.per_sheet
    assert 210 == usual.left_of_mm(2) + usual.width_mm
    assert 4.5 == pytest.approx(297 - usual.top_of_mm(7) - usual.height_mm)


@given(geometries())
@settings(max_examples=100, deadline=None)
def test_every_label_is_on_the_paper_and_none_covers_another(geometry: LabelGeometry) -> None:
    width_mm, height_mm = SIZES_MM[geometry.paper]
    lefts = [geometry.left_of_mm(column) for column in range(geometry.columns)]
    tops = [geometry.top_of_mm(row) for row in range(geometry.rows)]

    assert 0 <= lefts[0]
    assert 0 <= tops[0]
    assert lefts[-1] + geometry.width_mm <= width_mm + 1e-6
    assert tops[-1] + geometry.height_mm <= height_mm + 1e-6
    assert all(geometry.width_mm <= other - one + 1e-6 for one, other in pairwise(lefts))
    assert all(geometry.height_mm <= other - one + 1e-6 for one, other in pairwise(tops))


@given(geometries())
@settings(max_examples=100, deadline=None)
def test_what_is_said_in_full_is_read_as_it_is(geometry: LabelGeometry) -> None:
    text = (
        f"{geometry.columns}x{geometry.rows} {geometry.width_mm}x{geometry.height_mm} mm "
        f"from {geometry.left_mm}x{geometry.top_mm} mm gap {geometry.gap_across_mm}x{geometry.gap_down_mm} mm "
        f"on {geometry.paper} skip {geometry.skip}"
    )

    assert geometry == parsed(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("3x8 70x36 mm from 0x4.5 mm gap 0x0 mm on a4", LabelGeometry()),
        ("3x8 70x36 mm", LabelGeometry()),
        ("  3 x 8   70 x 36mm  ON A4 ", LabelGeometry()),
        ("3×8 70×36 mm skip 5", LabelGeometry(skip=5)),
        ("2x4 80x50 mm gap 10x5 mm", LabelGeometry(
            columns=2, rows=4, width_mm=80, height_mm=50, left_mm=20, top_mm=41, gap_across_mm=10, gap_down_mm=5
        )),
        ("1x1 1x2 in on letter skip 0 from 0.5x0.5 in", LabelGeometry(
            paper="letter", columns=1, rows=1, width_mm=25.4, height_mm=50.8, left_mm=12.7, top_mm=12.7
        )),
    ],
)  # fmt: skip
def test_parts_may_be_left_out_and_stand_in_any_order(text: str, expected: LabelGeometry) -> None:
    assert expected == parsed(text)


@pytest.mark.parametrize(
    "text",
    [
        "", "3x8", "70x36 mm", "3x8 70x36", "3x8 70x36 cm", "3x8 70,5x36 mm", "3x8 -70x36 mm", "3x8 70x36 mm on a5",
        "3x8 70x36 mm skip", "3x8 70x36 mm skip 1 skip 1", "3x8 70x36 mm from 1 mm", "3x8 70x36 mm please",
        "3x8 nanxinf mm", "3x8 1e3x36 mm", "٣x8 70x36 mm", "3x8 70x36 mm\x00", "x" * 10_000, "3x8 {0}x{1} mm",
    ],
)  # fmt: skip
def test_what_is_no_sheet_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(ValueError, match=r"is no sheet of labels; write columns x rows .* `3x8 70x36 mm") as refused:
        parsed(text)

    assert len(str(refused.value)) < 300


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("4x8 70x36 mm", "labels, gaps and margin take 280 mm, and a4 is 210 mm wide"),
        ("3x9 70x36 mm", "labels, gaps and margin take 324 mm, and a4 is 297 mm high"),
        ("3x8 70x36 mm on letter", "labels, gaps and margin take 288 mm, and letter is 279.4 mm high"),
        ("3x8 70x36 mm from 0.1x0 mm", "labels, gaps and margin take 210.1 mm, and a4 is 210 mm wide"),
        ("3x8 60x36 mm gap 20x0 mm", "labels, gaps and margin take 220 mm, and a4 is 210 mm wide"),
        ("0x8 70x36 mm", "0 x 8 labels: a sheet has at least one column and one row"),
        ("3x8 14.9x36 mm", "a label of 14.9 x 36 mm holds nothing that can be read: take one of 15 x 6 mm at least"),
        ("3x8 70x0 mm", "a label of 70 x 0 mm holds nothing that can be read: take one of 15 x 6 mm at least"),
        ("3x8 70x36 mm skip 24", "skip 24: a sheet has 24 labels, and one at least must be left"),
    ],
)
def test_a_sheet_that_cannot_be_is_refused_with_the_reason(text: str, reason: str) -> None:
    with pytest.raises(ValueError, match=f"^{reason}$"):
        parsed(text)


@pytest.mark.parametrize("odd", [{"width_mm": math.nan}, {"gap_down_mm": math.inf}, {"left_mm": -1.0}, {"skip": -1}])
def test_values_that_are_no_lengths_are_refused(odd: dict) -> None:
    with pytest.raises(ValueError, match=r"sizes, margins and gaps|skip -1"):
        LabelGeometry(**odd)
