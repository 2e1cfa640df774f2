"""Runs of cable cut from boxes, as few or as cheap as can be, with the proof."""

from netaudit.calculations.cutting.cut import cut
from netaudit.calculations.cutting.values import BoxSize, CutBox, Cutting

__all__ = ["BoxSize", "CutBox", "Cutting", "cut"]
