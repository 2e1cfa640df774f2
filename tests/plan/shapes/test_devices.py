"""Shapes of devices: each role has the keys of the format."""

from __future__ import annotations

from typing import get_args

import pytest

from netaudit.model.plan import Role
from netaudit.plan.shapes.devices import SHAPE_OF_ROLE, StationShape
from netaudit.plan.shapes.outline import keys
from netaudit.plan.shapes.validators import validator

EVERY = ["role", "room", "rack", "depth", "watts", "watts_max", "owned", "ports"]
ACTIVE = [*EVERY, "bonds", "bridges"]


def test_every_role_has_a_shape() -> None:
    assert list(get_args(Role)) == list(SHAPE_OF_ROLE)


@pytest.mark.parametrize(
    ("role", "expected"),
    [
        (
            "station",
            [*ACTIVE, "system", "service_order", "metrics", "manager", "wants", "edits_from", "plays", "records"],
        ),
        ("storage", [*ACTIVE, "purpose", "pools", "nodes", "virtual"]),
        ("switch", [*ACTIVE, "spanning_tree", "priority", "mac", "fabric"]),
        ("internet", [*ACTIVE, "up", "down"]),
        ("router", ACTIVE),
        ("access-point", ACTIVE),
        ("adapter", ACTIVE),
        ("ups", ACTIVE),
        ("other", ACTIVE),
        ("panel", EVERY),
        ("outlet", EVERY),
    ],
)
def test_a_role_has_its_own_keys_behind_those_of_every_device(role: str, expected: list[str]) -> None:
    assert expected == list(keys(SHAPE_OF_ROLE[role]))


def test_parts_of_a_device_have_ranges_again() -> None:
    raw = {"role": "station", "ports": {"1": {}, "2": {}, "en0": {"mtu": "9000"}}}
    station = validator(StationShape).validate_python(raw).built(name="cut-1")

    assert ["1-2", "en0"] == list(StationShape.parts(station)["ports"])
