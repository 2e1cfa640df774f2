"""Values of devices."""

from __future__ import annotations

from dataclasses import FrozenInstanceError

import pytest

from netaudit.model.devices import Device, Station, Storage


def test_panels_and_outlets_only_join_cables() -> None:
    assert [True, True, False] == [
        Device(name="x", role=role).passive
        for role in ("panel", "outlet", "switch")  # type: ignore[arg-type]
    ]


def test_a_device_cannot_be_changed() -> None:
    with pytest.raises(FrozenInstanceError):
        Device(name="x", role="other").name = "y"  # type: ignore[misc]


def test_a_seat_that_names_no_storage_differs_from_one_that_edits_from_none() -> None:
    assert Station(name="cut-1", role="station") != Station(name="cut-1", role="station", edits_from=())


def test_a_storage_is_for_editing_unless_it_says_otherwise() -> None:
    assert "edit" == Storage(name="vault", role="storage").purpose
