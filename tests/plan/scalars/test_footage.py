"""Frame rates, rasters, samplings and ratios."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from netaudit.plan.scalars.footage import NTSC_FPS, fps, raster, ratio, sampling

Refusal = Callable[[Callable[[str], object], str], str]


@pytest.mark.parametrize(
    ("text", "exact"),
    [
        ("25", Fraction(25)),
        ("24000/1001", Fraction(24000, 1001)),
        ("50/2", Fraction(25)),
        # SMPTE ST 12-1: the rates called 23.98, 29.97, 47.95, 59.94 and 119.88 are 1000/1001 of the whole one.
        ("23.976", Fraction(24000, 1001)),
        ("23.98", Fraction(24000, 1001)),
        ("29.97", Fraction(30000, 1001)),
        ("47.95", Fraction(48000, 1001)),
        ("59.94", Fraction(60000, 1001)),
        ("119.88", Fraction(120000, 1001)),
    ],
)
def test_a_frame_rate_is_exact(text: str, exact: Fraction) -> None:
    assert exact == fps(text)


def test_every_rounded_frame_rate_is_the_rounding_of_its_fraction() -> None:
    for text, exact in NTSC_FPS.items():
        decimals = len(text.partition(".")[2])
        nearest = {f"{float(exact):.{decimals}f}", f"{int(exact * 10**decimals) / 10**decimals:.{decimals}f}"}
        assert text in nearest


def test_a_raster_is_width_and_height() -> None:
    assert [(3840, 2160)] * 3 == [raster(text) for text in ("3840x2160", "3840 x 2160", "3840×2160")]


def test_a_ratio_is_uncompressed_to_compressed() -> None:
    assert [Fraction(5), Fraction(7, 2)] == [ratio(text) for text in ("5:1", "3.5:1")]


def test_a_sampling_has_three_or_four_parts() -> None:
    assert ["4:2:2", "4:4:4:4"] == [sampling(text) for text in ("4:2:2", "4:4:4:4")]


@pytest.mark.parametrize(
    ("parse", "text", "message"),
    [
        (fps, "24.5", "'24.5' is not a frame rate: write 25, 24000/1001, or one of 23.976, 23.98, 29.97, 47.952, 47.95, 59.94, 119.88"),
        (fps, "25p", "'25p' is not a frame rate: write 25, 24000/1001, or one of 23.976, 23.98, 29.97, 47.952, 47.95, 59.94, 119.88"),
        (fps, "nan", "'nan' is not a frame rate: write 25, 24000/1001, or one of 23.976, 23.98, 29.97, 47.952, 47.95, 59.94, 119.88"),
        (fps, "25/0", "'25/0' makes no sense: a frame rate is over 0, at most 1000"),
        (fps, "0", "'0' makes no sense: a frame rate is over 0, at most 1000"),
        (fps, "1001", "'1001' makes no sense: a frame rate is over 0, at most 1000"),
        (raster, "4K", "'4K' is not a raster: write width and height in pixels, as 3840x2160"),
        (raster, "0x2160", "'0x2160' makes no sense: each side of a raster is 1 to 65536 pixels"),
        (raster, "99999x1", "'99999x1' makes no sense: each side of a raster is 1 to 65536 pixels"),
        (sampling, "422", "'422' is not a chroma sampling: write 4:2:2, 4:2:0, 4:4:4 or 4:4:4:4"),
        (ratio, "5", "'5' is not a ratio: write uncompressed to compressed, as 5:1"),
        (ratio, "1:5", "'1:5' makes no sense: a ratio is 1:1 to 1000:1"),
        (ratio, "5:0", "'5:0' makes no sense: a ratio is 1:1 to 1000:1"),
    ],
)  # fmt: skip
def test_what_is_not_right_is_told_what_would_be(
    parse: Callable[[str], object], text: str, message: str, refusal: Refusal
) -> None:
    assert message == refusal(parse, text)
