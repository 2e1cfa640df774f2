"""Tables of fibre as they are shown: a published row of each, with its unit."""

from __future__ import annotations

import pytest

from netaudit.model.limits import Cell
from netaudit.standards.published import shown
from netaudit.standards.views.fibre import VIEWS

SHOWN = {view.title: shown(view, lambda _: True) for view in VIEWS}


@pytest.mark.parametrize(
    ("title", "cells", "unit"),
    [
        # Ethernet Alliance, 10GbE Standardized to 400 Meters on OM4 Fiber (June 2012): 400 m, 2.9 dB
        ("Reach over fibre", ("10GBASE-SR", "OM4", 400, 400), "m"),
        ("Loss that a channel of fibre may have", ("10GBASE-SR", "OM4", 850, 2.9, 2.9), "dB"),
        # ISO/IEC 11801: 3.5 dB/km at 850 nm; TIA-568: a pair of connectors 0.75 dB
        ("The most that fibre loses", ("OM4", 850, 3.5), "dB/km"),
        ("The most that a joint of fibre loses", ("pair", 0.75), "dB"),
        ("Cores of fibre", ("OM1", 62.5), "µm"),
    ],
)
def test_a_published_row_is_shown_with_its_unit(title: str, cells: tuple[Cell, ...], unit: str) -> None:
    assert cells in [row.cells for row in SHOWN[title].rows]
    assert unit == SHOWN[title].columns[-1].unit


def test_typical_and_worst_figures_stand_in_tables_of_their_own_each_with_its_own_source() -> None:
    worst, typical = (
        SHOWN[title] for title in ("The most that a joint of fibre loses", "What a decent joint of fibre loses")
    )

    assert ({"pair", "splice"},) * 2 == tuple({row.cells[0] for row in table.rows} for table in (worst, typical))
    assert {row.source for row in worst.rows}.isdisjoint(row.source for row in typical.rows)
