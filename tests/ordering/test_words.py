"""Words of a bill: names in a row, and texts that hold names as a whole."""

from __future__ import annotations

import pytest

from netaudit.ordering.words import listed, names_all


@pytest.mark.parametrize(
    ("names", "text"),
    [
        ([], ""),
        (["W01"], "W01"),
        (["W01", "C01"], "W01 and C01"),
        (["W01", "C01", "C02"], "W01, C01 and C02"),
        ([str(number) for number in range(10)], "0, 1, 2, 3, 4, 5, 6, 7 and 2 more"),
    ],
)
def test_names_stand_in_a_row_and_the_many_are_counted(names: list[str], text: str) -> None:
    assert text == listed(names)


@pytest.mark.parametrize(
    ("text", "names", "holds"),
    [
        ("core/1 > core/11", ["core/1", "core/11"], True),
        ("core/11 > core/12", ["core/1"], False),
        ("core/11", ["core/1", "core/11"], False),
        ("core/11, core/1", ["core/1"], True),
        ("core/1", ["core/1", "core/1"], False),
        ("", [], True),
    ],
)
def test_a_name_counts_only_as_a_whole(text: str, names: list[str], holds: bool) -> None:
    assert holds == names_all(text, names)
