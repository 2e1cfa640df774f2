"""What holds where the caller chooses nothing."""

from __future__ import annotations

from netaudit.ordering.request import Request


def test_nobody_is_told_and_nobody_stops_unless_somebody_asks() -> None:
    request = Request()
    request.tell("37 boxes so far")

    assert not request.stop()


def test_a_tenth_is_spare_and_half_a_metre_is_lost_at_each_end() -> None:
    assert (0.1, 0.5) == (Request().spare, Request().waste_m)
