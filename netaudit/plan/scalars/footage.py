"""Pictures and sound: frame rates, rasters, chroma sampling, compression ratios."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from netaudit.plan.scalars.quantities import CACHED
from netaudit.plan.scalars.text import quoted

FASTEST_FPS = 1000
LARGEST_SIDE = 65536
"""Pixels along one side of a raster."""
STRONGEST_RATIO = 1000

NTSC_FPS = {
    written: Fraction(frames * 1000, 1001)
    for frames, spellings in {
        24: ("23.976", "23.98"),
        30: ("29.97",),
        48: ("47.952", "47.95"),
        60: ("59.94",),
        120: ("119.88",),
    }.items()
    for written in spellings
}
"""Rounded spellings of the frame rates that are 1000/1001 of a whole one, as SMPTE ST 12-1 defines them."""

_FRACTION = re.compile(r"([0-9]{1,7})(?:/([0-9]{1,7}))?")
_RASTER = re.compile(r"([0-9]{1,6}) ?[x×] ?([0-9]{1,6})")
_SAMPLING = re.compile(r"[0-9](:[0-9]){2,3}")
_RATIO = re.compile(r"([0-9]{1,7}(?:\.[0-9]{1,6})?):([0-9]{1,7}(?:\.[0-9]{1,6})?)")


@lru_cache(CACHED)
def fps(text: str) -> Fraction:
    """Frames each second, exact: `25`, `24000/1001`, and `23.976`, which means the same; raises ValueError."""
    if text in NTSC_FPS:
        return NTSC_FPS[text]
    found = _FRACTION.fullmatch(text)
    if found is None:
        rounded = ", ".join(NTSC_FPS)
        raise ValueError(f"{quoted(text)} is not a frame rate: write 25, 24000/1001, or one of {rounded}")
    frames, seconds = int(found[1]), int(found[2] or 1)
    if not seconds or not 0 < Fraction(frames, seconds) <= FASTEST_FPS:
        raise ValueError(f"{quoted(text)} makes no sense: a frame rate is over 0, at most {FASTEST_FPS}")
    return Fraction(frames, seconds)


@lru_cache(CACHED)
def raster(text: str) -> tuple[int, int]:
    """Width and height [pixels], as `3840x2160`; raises ValueError."""
    found = _RASTER.fullmatch(text)
    if found is None:
        raise ValueError(f"{quoted(text)} is not a raster: write width and height in pixels, as 3840x2160")
    width, height = int(found[1]), int(found[2])
    if not (0 < width <= LARGEST_SIDE and 0 < height <= LARGEST_SIDE):
        raise ValueError(f"{quoted(text)} makes no sense: each side of a raster is 1 to {LARGEST_SIDE} pixels")
    return width, height


@lru_cache(CACHED)
def sampling(text: str) -> str:
    """Chroma sampling, as `4:2:2`; raises ValueError."""
    if not _SAMPLING.fullmatch(text):
        raise ValueError(f"{quoted(text)} is not a chroma sampling: write 4:2:2, 4:2:0, 4:4:4 or 4:4:4:4")
    return text


@lru_cache(CACHED)
def ratio(text: str) -> Fraction:
    """Compression, uncompressed to compressed, as `5:1`; raises ValueError."""
    found = _RATIO.fullmatch(text)
    if found is None:
        raise ValueError(f"{quoted(text)} is not a ratio: write uncompressed to compressed, as 5:1")
    before, after = Fraction(Decimal(found[1])), Fraction(Decimal(found[2]))
    if not after or not 1 <= before / after <= STRONGEST_RATIO:
        raise ValueError(f"{quoted(text)} makes no sense: a ratio is 1:1 to {STRONGEST_RATIO}:1")
    return before / after
