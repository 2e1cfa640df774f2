"""Every place of a plan is found again in its file."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from strategies import plans

from netaudit.model.place import (
    Place,
    PortRef,
    Position,
    cable_place,
    copy_places,
    pool_place,
    port_place,
)
from netaudit.model.plan import Plan, Storage
from netaudit.plan.load import loads
from netaudit.plan.writing.write import write


@pytest.mark.parametrize(
    ("place", "written"),
    [
        (Place("network", "office"), "  office:"),
        (Place("rack", "bay"), "  bay: {units"),
        (Place("device", "cut-1"), "  cut-1:"),
        (port_place(PortRef("cut-1", "air")), "      air:"),
        (port_place(PortRef("core", "11")), "      9-12:"),
        (pool_place("vault", "main"), "      main:"),
        (cable_place("W01"), "  W01:"),
    ],
)
def test_a_place_is_where_its_key_is_written(place: Place, written: str, example: str) -> None:
    line = next(nth for nth, text in enumerate(example.splitlines(), start=1) if text.startswith(written))

    assert Position(line, len(written) - len(written.lstrip()) + 1) == loads(example).lines[place]


def test_a_copy_is_where_its_item_begins_and_equal_names_are_told_apart() -> None:
    text = (
        "netaudit: 1\ndevices: {a: {role: other}}\ncopies:\n- {what: x, from: a, to: a}\n- {what: x, from: a, to: a}\n"
    )
    lines = loads(text).lines

    assert [Position(4, 3), Position(5, 3)] == [lines[place] for place in copy_places(("x", "x"))]


def test_rooms_routes_and_bonds_have_places() -> None:
    lines = loads(
        "netaudit: 1\nrooms: {loft: {}}\nroutes: {attic: 3 m}\n"
        "devices: {a: {role: switch, ports: {1-2: {}}, bonds: {lag: {ports: [1, 2]}}}}"
    ).lines

    assert Position(2, 9) == lines[Place("room", "loft")]
    assert Position(3, 10) == lines[Place("route", "attic")]
    assert Position(4, 55) == lines[port_place(PortRef("a", "lag"))]


@settings(max_examples=15, deadline=None)
@given(plans())
def test_everything_that_is_named_has_a_position(plan: Plan) -> None:
    read = loads(write(plan))
    expected = {Place("network", name) for name in plan.networks}
    expected |= {Place("rack", name) for name in plan.racks}
    expected |= {Place("room", name) for name in plan.rooms}
    expected |= {Place("route", name) for name in plan.routes}
    expected |= {cable_place(name) for name in plan.cables}
    expected |= set(copy_places(tuple(copy.what for copy in plan.copies)))
    for device in plan.devices.values():
        expected |= {Place("device", device.name)}
        expected |= {port_place(PortRef(device.name, port)) for port in (*device.ports, *device.bonds)}
        if isinstance(device, Storage):
            expected |= {pool_place(device.name, pool) for pool in device.pools}

    assert expected == set(read.lines)


def test_lines_are_no_part_of_a_plans_value(example: str) -> None:
    assert loads(example) == loads("\n\n" + example)
    assert loads(example).lines != loads("\n\n" + example).lines
