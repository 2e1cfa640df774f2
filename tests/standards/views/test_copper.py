"""Tables of twisted pair as they are shown: a published row of each, with its unit."""

from __future__ import annotations

import pytest

from netaudit.model.limits import Cell
from netaudit.standards.published import shown
from netaudit.standards.views.copper import VIEWS

SHOWN = {view.title: shown(view, lambda _: True) for view in VIEWS}


@pytest.mark.parametrize(
    ("title", "cells", "unit"),
    [
        # TIA TSB-155-A in its publisher's summary: 37 m, 55 m
        ("Reach over twisted pair", ("10GBASE-T", "6", "no", 37, 55), "m"),
        # Category 8 Questions Answered, cablinginstall.com (October 2015)
        ("Connections in a channel of twisted pair", ("10GBASE-T", 4), ""),
        # ANSI/TIA/EIA-568-B.1 6.4.1.4: C = (102 - H) / (1 + D), D 0.5 for 26 AWG
        ("Cable and cords of a channel, as solid cable", ("tia", "10GBASE-T", 102), "m"),
        ("Loss of stranded cords against solid cable", ("tia", 26, 1.5), ""),
        # ISO/IEC 11801 ed. 2.2: 90 m to 82.8 m between 20 and 40 °C
        ("Solid cable in warm air", ("iso", "no", 20, 40, 90, 0.36), "m/°C"),
    ],
)
def test_a_published_row_is_shown_with_its_unit(title: str, cells: tuple[Cell, ...], unit: str) -> None:
    assert cells in [row.cells for row in SHOWN[title].rows]
    assert unit == SHOWN[title].columns[-1].unit


def test_what_holds_for_all_twisted_pair_is_shown_for_any_of_it() -> None:
    whole = {view.title for view in VIEWS if "copper" in view.whole_for}

    assert {"Solid cable in warm air", "Loss of stranded cords against solid cable"} <= whole
    assert "Reach over twisted pair" not in whole
