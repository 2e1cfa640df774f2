"""Tables of made-up cables, modules, buses, trees and systems as they are shown: a published row of each."""

from __future__ import annotations

import pytest

from netaudit.model.limits import Cell
from netaudit.standards.published import shown
from netaudit.standards.views.devices import VIEWS

SHOWN = {view.title: shown(view, lambda _: True) for view in VIEWS}
GIGA = 1_000_000_000


@pytest.mark.parametrize(
    ("title", "cells", "unit"),
    [
        # IEEE 802.3 clause 85, fowiki.com: 40GBASE-CR4 to 7 m
        ("Length of made-up cables", (40 * GIGA, "twinax", "40GBASE-CR4", 7), "m"),
        # spy.macrumors.com thread 2340127: Thunderbolt 3 gives about 22 Gb/s
        ("Host buses", ("thunderbolt", "3", 40 * GIGA, 22 * GIGA), "bit/s"),
        # IEEE 802.1D-2004: 20 Tb/s divided by the rate; 802.1D-1998: 10 Gb/s costs 2
        ("Cost of a link in a spanning tree, long scale", (10 * GIGA, 2000), ""),
        ("Cost of a link in a spanning tree, short scale", (10 * GIGA, 2), ""),
        ("Priority of a bridge that nobody set", (32768,), ""),
        # Microsoft KB 299540: 10 Gb/s wired counts 15
        ("What a system counts a way out by", ("windows", None, "wired", 10 * GIGA, 15), ""),
    ],
)
def test_a_published_row_is_shown_with_its_unit(title: str, cells: tuple[Cell, ...], unit: str) -> None:
    assert cells in [row.cells for row in SHOWN[title].rows]
    assert unit == SHOWN[title].columns[-1].unit


def test_the_short_scale_leaves_out_the_rates_that_it_has_no_cost_for() -> None:
    short = {row.cells[0] for row in SHOWN["Cost of a link in a spanning tree, short scale"].rows}

    assert {GIGA // 100, GIGA // 10, GIGA, 2 * GIGA, 10 * GIGA} == short
