"""What holds where the caller chooses nothing."""

from __future__ import annotations

from math import inf, nan
from typing import Any

import pytest

from netaudit.ordering.request import Request


def test_nobody_is_told_and_nobody_stops_unless_somebody_asks() -> None:
    request = Request()
    request.tell("37 boxes so far")

    assert not request.stop()


def test_the_search_for_fewer_boxes_ends_after_a_minute() -> None:
    assert 60.0 == Request().limit_s


def test_a_tenth_is_spare_and_half_a_metre_is_lost_at_each_end() -> None:
    assert (0.1, 0.5) == (Request().spare, Request().waste_m)


@pytest.mark.parametrize(
    "choice",
    [{"spare": 0.0, "waste_m": 0.0, "limit_s": 0.0}, {"spare": 10.0, "waste_m": 1000.0}, {"boxes_m": (0.001,)}],
)
def test_what_lies_at_a_limit_is_taken(choice: dict[str, Any]) -> None:
    asked = Request(**choice)

    assert choice == {name: getattr(asked, name) for name in choice}


@pytest.mark.parametrize(
    ("choice", "word"),
    [
        ({"spare": -0.1}, "spare"),
        ({"spare": 10.001}, "spare"),
        ({"spare": nan}, "spare"),
        ({"waste_m": 1000.001}, "waste_m"),
        ({"boxes_m": (inf,)}, "boxes_m"),
        ({"limit_s": -1.0}, "limit_s"),
        ({"limit_s": inf}, "limit_s"),
        ({"waste_m": -40.0}, "waste_m"),
        ({"boxes_m": (100.0, 0.0)}, "boxes_m"),
        ({"boxes_m": (nan,)}, "boxes_m"),
        ({"limit_s": nan}, "limit_s"),
        ({"series": "cubits"}, "metric, imperial"),
    ],
)
def test_what_no_shop_can_follow_is_refused_with_what_would_be_right(choice: dict[str, Any], word: str) -> None:
    with pytest.raises(ValueError, match=word):
        Request(**choice)
