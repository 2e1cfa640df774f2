"""Texts that hold names as a whole."""

from __future__ import annotations

import pytest

from netaudit.ordering.day.whole_names import names_all


@pytest.mark.parametrize(
    ("text", "names", "holds"),
    [
        ("core/1 > core/11", ["core/1", "core/11"], True),
        ("core/11 > core/12", ["core/1"], False),
        ("core/11", ["core/1", "core/11"], False),
        ("core/11, core/1", ["core/1"], True),
        ("core/1", ["core/1", "core/1"], False),
        ("core/1/1, core/1", ["core/1", "core/1/1"], True),
        ("", [], True),
    ],
)
def test_a_name_counts_only_as_a_whole(text: str, names: list[str], holds: bool) -> None:
    assert holds == names_all(text, names)
