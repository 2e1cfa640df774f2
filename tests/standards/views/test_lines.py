"""Tables of lines and equations as they are shown: a published row of each."""

from __future__ import annotations

import pytest

from netaudit.model.limits import Cell
from netaudit.standards.published import shown
from netaudit.standards.views.lines import VIEWS

SHOWN = {view.title.partition(":")[0]: shown(view, lambda _: True) for view in VIEWS}


@pytest.mark.parametrize(
    ("title", "cells"),
    [
        # Category 5e cable of ANSI/TIA-568: 1.967, 0.023 and 0.050, held by ten printed points (Trulove, LAN Wiring)
        ("Insertion loss of cable", ("tia", "5e", 1, 100, 1.967, 0.023, 0.05)),
        # Wire tables at wp.1728.org and hyperphysics: 24 AWG, 84.20 ohm/km
        ("Resistance of a solid copper conductor at 20 °C", (24, 84.2)),
        # JIS X 5150:2004, class D, interconnect to the outlet: 109 - F x X
        ("Length equations", ("5e", "D", "interconnect", 109, 0)),
    ],
)
def test_a_published_row_is_shown(title: str, cells: tuple[Cell, ...]) -> None:
    texts = [tuple(cell for cell in row.cells if cell is not None) for row in SHOWN[title].rows]

    assert cells in texts


def test_every_formula_says_in_its_title_how_its_columns_are_put_together() -> None:
    formulas = [view.title for view in VIEWS if ":" in view.title]

    assert 6 == len(formulas)
    assert "sqrt f" in formulas[0]
