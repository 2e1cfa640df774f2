"""A reel for one long run may hold others too, if somebody says so."""

from __future__ import annotations

from wiring import cable

from netaudit.model.plan import Cable
from netaudit.ordering.request import Request
from netaudit.ordering.shop.bulk import bulk
from netaudit.ordering.shop.reel_remarks import reel_remarks
from netaudit.ordering.shop.stock import Stock


def remarks(*lengths_m: float, boxes_m: tuple[float, ...] = ()) -> list[str]:
    """What is told of runs of some lengths [m]."""
    runs: list[Cable] = [
        cable(f"W{number}", f"plate/{number}", f"panel/{number}", length_m=length_m)
        for number, length_m in enumerate(lengths_m, start=1)
    ]
    rows, _ = bulk(runs, Stock((), (), "metric"), Request(boxes_m=boxes_m))
    return list(reel_remarks(rows))


def test_what_is_left_on_a_reel_is_told_with_the_sizes_that_would_use_it() -> None:
    expected = (
        "W1 is longer than the boxes, and a reel is bought for it alone, with 189 m left: to let other runs use that, "
        "name every size, as --box '304.8 m' --box '500 m'."
    )

    assert [expected] == remarks(310.0, 40.0)


def test_sizes_that_were_named_share_whatever_they_hold() -> None:
    assert [] == remarks(310.0, 40.0, boxes_m=(304.8, 500.0))


def test_boxes_alone_and_reels_alone_need_no_word() -> None:
    assert [] == remarks(40.0)
    assert [] == remarks(310.0)
