"""Copper between buildings."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import places
from runs import only, only_gap, silent
from wiring import cable, cage, device, jack, panel, seat, switch, wired

import netaudit
from netaudit.model.plan import Cable, Device, Rack, RackPosition, Room
from netaudit.model.report import Report
from netaudit.rules.cabling.earths import EARTHS_JOINED
from netaudit.standards.earths import earth_paths

RULE = "earths-joined"
ROOMS = {
    "loft": Room("loft", "boathouse"),
    "bay": Room("bay", "boathouse"),
    "store": Room("store", "net store"),
    "yard": Room("yard"),
}


def estate(*things: Device | Cable, rooms: dict[str, Room] | None = None, **fields: Any) -> Report:
    """The verdict on things that stand in the rooms of two buildings."""
    return netaudit.check(wired(*things, rooms=ROOMS if rooms is None else rooms, **fields))


def two(near: str | None, far: str | None, part: Cable, **fields: Any) -> Report:
    """A switch in each of two rooms with one cable between them."""
    ends = switch("one", {"1": cage(10)}, room=near), switch("other", {"1": cage(10)}, room=far)
    return estate(*ends, part, **fields)


@pytest.mark.parametrize("category", ["3", "5e", "6A", "8.2", "twinax", "active-twinax", "thunderbolt", "usb"])
def test_copper_between_two_buildings_joins_their_earths(category: str) -> None:
    """Tech Tip 15 at duke-energy.com: fibre for data lines between buildings."""
    finding = only(two("loft", "store", cable("W01", "one/1", "other/1", category)), RULE)  # type: ignore[arg-type]
    assert ("warn", "common practice") == (finding.severity, finding.source.standing)
    assert ["cable W01"] == places(finding)
    assert "W01, of copper, joins one and other, which stand in 2 buildings: boathouse and net store" == finding.message
    assert (
        "Lay fibre between boathouse and net store, with modules for it at both ends: lightning and fault currents take "
        "copper from one earth to the other. Leave earthing and surge protection to a licensed electrician and the local "
        "code." == finding.remedy
    )


@pytest.mark.parametrize("category", ["OM1", "OS2", "active-optical"])
def test_fibre_keeps_earths_apart(category: str) -> None:
    assert silent(two("loft", "store", cable("F01", "one/1", "other/1", category)), RULE)  # type: ignore[arg-type]
    assert silent(two("loft", None, cable("F01", "one/1", "other/1", category)), RULE)  # type: ignore[arg-type]


@pytest.mark.parametrize("far", ["loft", "bay"])
def test_two_rooms_of_one_building_have_one_earth(far: str) -> None:
    assert silent(two("loft", far, cable("W01", "one/1", "other/1")), RULE)


def test_a_plan_that_names_one_building_is_not_asked() -> None:
    rooms = {"loft": ROOMS["loft"], "store": Room("store")}
    assert silent(two("loft", "store", cable("W01", "one/1", "other/1"), rooms=rooms), RULE)
    assert silent(two("loft", None, cable("W01", "one/1", "other/1"), rooms={}), RULE)


def test_what_stands_in_a_rack_stands_in_its_room_unless_it_says_otherwise() -> None:
    racks = {"tall": Rack("tall", room="store"), "low": Rack("low")}
    racked = RackPosition("tall", 1)
    part = cable("W01", "cut-1/wire", "core/1")
    near = seat("cut-1", room="loft")
    assert only(estate(near, switch("core", rack=racked), part, racks=racks), RULE)
    assert silent(estate(near, switch("core", rack=racked, room="bay"), part, racks=racks), RULE)
    assert only_gap(estate(near, switch("core", rack=RackPosition("low", 1)), part, racks=racks), RULE)


def test_panels_and_outlets_count_as_ends() -> None:
    parts = cable("C01", "cut-1/wire", "panel/1"), cable("W01", "panel/1", "core/1")
    things = (
        seat("cut-1", room="loft"),
        device("panel", "panel", {"1": jack()}, room="bay"),
        switch("core", room="store"),
    )
    assert ["cable W01"] == places(only(estate(*things, *parts), RULE))


def test_through_a_panel_in_no_known_place_the_whole_stretch_is_told_once() -> None:
    parts = cable("C01", "cut-1/wire", "panel/1"), cable("W01", "core/1", "panel/1")
    things = seat("cut-1", room="loft"), panel("panel"), switch("core", room="store")
    finding = only(estate(*things, *parts), RULE)
    assert ["cable C01", "cable W01"] == places(finding)
    assert "joins cut-1 and core" in finding.message
    assert ["cable W01", "cable C01"] == places(only(estate(*things, *parts[::-1]), RULE))


def test_a_stretch_in_the_middle_of_which_the_plan_begins_is_followed_both_ways() -> None:
    parts = [
        cable("W02", "panel/1", "panel/2"),
        cable("C01", "cut-1/wire", "panel/1"),
        cable("C02", "panel/2", "core/1"),
    ]
    things = seat("cut-1", room="loft"), panel("panel"), switch("core", room="store")
    finding = only(estate(*things, *parts), RULE)
    assert ["cable W02", "cable C01", "cable C02"] == places(finding)
    assert "joins cut-1 and core" in finding.message
    assert silent(estate(things[0], things[1], switch("core", room="bay"), *parts), RULE)


def test_the_unknown_place_of_one_end_is_open_where_the_other_is_known() -> None:
    gap = only_gap(two("loft", None, cable("W01", "one/1", "other/1")), RULE)
    assert "cable W01" == str(gap.where[0])
    assert "The building in which other stands is not given" == gap.reason
    assert "write down `room` of other: outside boathouse, W01 would join two earths" == gap.decides
    assert only_gap(two("yard", "store", cable("W01", "one/1", "other/1")), RULE)


def test_two_ends_of_which_nobody_knows_anything_say_nothing() -> None:
    assert silent(two(None, "yard", cable("W01", "one/1", "other/1")), RULE)


def test_a_run_that_stops_at_a_panel_in_no_known_place_is_open() -> None:
    part = cable("W01", "cut-1/wire", "panel/1")
    assert "panel stands" in only_gap(estate(seat("cut-1", room="loft"), panel("panel"), part), RULE).reason


def test_a_ring_of_panels_in_no_known_place_comes_to_an_end() -> None:
    parts = cable("W01", "panel/1", "panel/2"), cable("W02", "panel/2", "panel/1")
    assert silent(estate(panel("panel"), *parts), RULE)


def test_a_breakout_joins_every_building_that_one_of_its_ends_is_in() -> None:
    far = [switch(name, {"1": cage(10)}, room=room) for name, room in (("a", "loft"), ("b", "store"))]
    part = cable("D01", "one/1", ["a/1", "b/1"], "twinax", 3.0)
    finding = only(estate(switch("one", {"1": cage(40)}, room="loft"), *far, part), RULE)
    assert "D01, of copper, joins one, a and b, which stand in 2 buildings" in finding.message


def test_a_cable_of_unknown_kind_is_judged_by_the_ports_at_its_ends() -> None:
    part = cable("X01", "cut-1/wire", "core/1", "unknown")
    assert only(estate(seat("cut-1", room="loft"), switch("core", room="store"), part), RULE)
    optic = cage(10, module="10GBASE-SR")
    ends = switch("one", {"1": optic}, room="loft"), switch("other", {"1": optic}, room="store")
    assert silent(estate(*ends, cable("X01", "one/1", "other/1", "unknown")), RULE)


def test_a_cable_of_which_nothing_tells_the_kind_is_open_between_buildings_and_only_there() -> None:
    part = cable("X01", "one/1", "other/1", "unknown")
    gap = only_gap(two("loft", "store", part), RULE)
    assert "What X01 is made of is not given" == gap.reason
    assert "write down `category` of X01: between boathouse and net store only fibre keeps earths apart" == gap.decides
    assert silent(two("loft", "bay", part), RULE)
    assert silent(two("loft", None, part), RULE)


def test_what_is_known_of_a_spare_run_and_of_one_in_use_is_the_same() -> None:
    spare = cable("W01", "panel/1", "plate/1")
    things = device("panel", "panel", {"1": jack()}, room="bay"), device("plate", "outlet", {"1": jack()}, room="store")
    assert only(estate(*things, spare), RULE)


def test_every_kind_of_cable_in_the_table_has_a_category_that_leads_to_it() -> None:
    kinds = {"twisted pair", "fibre", "twinax", "active-twinax", "active-optical", "thunderbolt", "usb"}
    assert kinds == set(earth_paths())


def test_the_source_of_the_table_is_named() -> None:
    assert {path.source for path in earth_paths().values()} == set(EARTHS_JOINED.sources())
