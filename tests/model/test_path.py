"""Paths as values."""

from __future__ import annotations

from netaudit.model.path import Path


def test_a_path_without_a_road_promises_nothing_and_knows_no_rate() -> None:
    path = Path(station="cut-1", storage="vault", planned=True)

    assert "path cut-1 > vault" == str(path.place)
    assert (0, None, None, None, ()) == (
        path.at_least_bit_per_s, path.at_most_bit_per_s, path.agreed_bit_per_s, path.goodput_bit_per_s, path.hops
    )  # fmt: skip
