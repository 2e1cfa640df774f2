"""The generated campus is a plan that loads, and has in it what was asked for."""

from __future__ import annotations

import io
import runpy
from collections import Counter
from pathlib import Path

import pytest

import netaudit
from netaudit.model.plan import Plan

write_campus = runpy.run_path(str(Path(__file__).with_name("campus.py")))["write_campus"]


def text_of(stations: int) -> str:
    """The text of a campus."""
    text = io.StringIO()
    write_campus(text, stations)
    return text.getvalue()


@pytest.fixture(scope="module")
def campus(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    """A campus of 200 stations: two buildings of four floors, five rooms of five seats on each."""
    file = tmp_path_factory.mktemp("campus") / "campus-200.yaml"
    file.write_text(text_of(200), encoding="utf-8")
    return netaudit.load(file)


@pytest.mark.parametrize("stations", [1, 26, 100, 101])
def test_a_campus_may_end_in_the_middle_of_a_building(stations: int, tmp_path: Path) -> None:
    file = tmp_path / "campus.yaml"
    file.write_text(text_of(stations), encoding="utf-8")
    devices = netaudit.load(file).devices.values()

    assert stations == len([device for device in devices if device.role == "station"])


def test_a_campus_has_its_devices(campus: Plan) -> None:
    expected = {"station": 200, "outlet": 40, "panel": 8, "switch": 8 + 2 + 1, "storage": 2 + 1}

    assert expected == Counter(device.role for device in campus.devices.values())


def test_a_campus_has_three_cables_to_every_wired_port_of_a_seat(campus: Plan) -> None:
    seat_ports, floors, storages, buildings = 200 + 40, 8, 3, 2
    expected = seat_ports * 3 + floors + storages + buildings

    assert expected == len(campus.cables)


def test_a_campus_has_two_networks_a_building_and_one_for_all(campus: Plan) -> None:
    expected = {"b001-media", "b001-office", "b002-media", "b002-office", "campus"}

    assert expected == set(campus.networks)


def test_the_switches_of_a_campus_form_a_tree(campus: Plan) -> None:
    switches = {device.name for device in campus.devices.values() if device.role == "switch"}
    joins = [cable for cable in campus.cables.values() if switches >= {end.device for end in cable.ends}]

    assert len(switches) - 1 == len(joins)
    assert switches == {end.device for cable in joins for end in cable.ends}


def test_a_few_walls_of_a_campus_are_old_too_long_or_unknown(campus: Plan) -> None:
    walls = Counter(cable.category for name, cable in campus.cables.items() if name.endswith("-wire-W"))
    expected = {"5e": 200 // 37, "6": 200 // 53, "unknown": 200 // 71, "6A": 200 - 5 - 3 - 2}

    assert expected == walls


def test_no_port_of_a_campus_is_used_twice(campus: Plan) -> None:
    uses = Counter(end for cable in campus.cables.values() for end in cable.ends)
    passive = {device.name for device in campus.devices.values() if device.passive}

    assert {1} == {count for port, count in uses.items() if port.device not in passive}
    assert {2} == {count for port, count in uses.items() if port.device in passive}


def test_a_campus_of_one_size_is_always_the_same() -> None:
    assert text_of(130) == text_of(130)


@pytest.mark.parametrize("stations", [0, -1, 100_001])
def test_a_campus_of_no_size_is_refused(stations: int) -> None:
    with pytest.raises(ValueError, match="give 1 to 100000"):
        write_campus(io.StringIO(), stations)
