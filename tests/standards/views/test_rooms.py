"""Tables of racks and rooms as they are shown: published rows, with their unit."""

from __future__ import annotations

import pytest

from netaudit.model.limits import Cell
from netaudit.standards.find import find
from netaudit.standards.published import published, shown
from netaudit.standards.views.rooms import VIEWS

SHOWN = {view.title: shown(view, lambda _: True) for view in VIEWS}


@pytest.mark.parametrize(
    "cells",
    [
        # IEC 60297, the 482,6 mm (19 in) series
        ("rack", "panel width", "any", 482.6),
        # BICSI TDMM (1996), chapter 4, quoted by cablinginstall.com: 3 m, 30 cm
        ("rack", "service loop", "any", 3000),
        ("outlet", "service loop", "twisted pair", 300),
    ],
)
def test_a_published_row_is_shown_with_its_unit(cells: tuple[Cell, ...]) -> None:
    table = SHOWN["What a cable needs beyond its route"]

    assert cells in [row.cells for row in table.rows]
    assert "mm" == table.columns[-1].unit


@pytest.mark.parametrize("word", ["slack", "service loops", "cable run", "routes"])
def test_it_answers_to_the_words_of_whoever_measures_cable(word: str) -> None:
    assert list(SHOWN) == [table.title for table in published(find([word])[0])]


def test_it_says_that_every_part_is_rounded_up() -> None:
    assert any("rounded up to the centimetre" in note for note in SHOWN["What a cable needs beyond its route"].notes)
