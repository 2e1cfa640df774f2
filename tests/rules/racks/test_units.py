"""Rules about rack units."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rooms import found, gaps, places
from wiring import cable, device, seat, switch, vault, wired

import netaudit
from netaudit.model.finding import Measure
from netaudit.model.plan import Device, Plan, Rack, RackPosition
from netaudit.model.report import Report
from netaudit.rules.facts import build_facts
from netaudit.rules.racks.units import OUTSIDE_RACK, UNITS_OVERLAP

OVERLAP, OUTSIDE = "units-overlap", "outside-rack"


def standing(name: str, unit: int, height: int = 1, rack: str = "bay", **fields: Any) -> Device:
    """A device in a rack."""
    return device(name, "other", {}, rack=RackPosition(rack, unit, height, **fields))


def plan_of(*devices: Device, units: int | None = 12) -> Plan:
    """A plan of some devices and a rack of so many units."""
    return replace(wired(*devices), racks={"bay": Rack("bay", units), "nook": Rack("nook", 6)})


def report(*devices: Device, units: int | None = 12) -> Report:
    return netaudit.check(plan_of(*devices, units=units))


def test_two_devices_in_one_unit_fail_at_their_rack() -> None:
    (finding,) = found(report(standing("vault", 4, 2), standing("core", 5)), OVERLAP)

    assert ["rack bay", "device core", "device vault"] == places(finding)
    assert "core and vault share unit 5 of bay at the front" == finding.message
    assert "Give core units of its own, such as unit 1." == finding.remedy
    assert ("fail", "plan") == (finding.severity, finding.source.standing)


@pytest.mark.parametrize(
    ("unit", "height", "shared"), [(1, 3, ""), (2, 3, "unit 4"), (3, 3, "units 4 and 5"), (6, 1, ""), (5, 2, "unit 5")]
)
def test_units_count_from_the_lowest_to_the_highest_that_is_filled(unit: int, height: int, shared: str) -> None:
    told = found(report(standing("vault", 4, 2), standing("core", unit, height)), OVERLAP)

    assert [shared] * bool(shared) == [
        finding.message.removeprefix("core and vault share ").split(" of ")[0] for finding in told
    ]


def test_a_device_across_two_others_is_told_once_with_both() -> None:
    (finding,) = found(report(standing("a", 1), standing("b", 2), standing("c", 1, 2)), OVERLAP)

    assert ["rack bay", "device c", "device a", "device b"] == places(finding)
    assert "c, a and b share units 1 and 2 of bay at the front" == finding.message
    assert "Give c units of its own, such as units 3 to 4." == finding.remedy


def test_front_and_rear_and_other_racks_do_not_meet() -> None:
    assert [] == found(
        report(standing("a", 1), standing("b", 1, mounted="rear"), standing("c", 1, rack="nook")), OVERLAP
    )
    (finding,) = found(report(standing("a", 1, mounted="rear"), standing("b", 1, mounted="rear")), OVERLAP)
    assert finding.message.endswith("at the rear")


@pytest.mark.parametrize(
    ("one", "other", "meet"),
    [
        ("left", "right", False),
        ("right", "left", False),
        ("left", "left", True),
        ("right", None, True),
        (None, "left", True),
    ],
)
def test_two_halves_share_a_unit_and_what_is_as_wide_as_the_rack_does_not(
    one: Literal["left", "right"] | None, other: Literal["left", "right"] | None, meet: bool
) -> None:
    assert meet == bool(found(report(standing("a", 1, half=one), standing("b", 1, half=other)), OVERLAP))


def test_free_units_are_free_at_both_sides_and_within_the_rack() -> None:
    crowd = [standing("a", 1), standing("b", 2, mounted="rear"), standing("c", 1, 2, rack="nook"), standing("d", 1)]

    def remedy(*more: Device, units: int | None) -> str:
        return found(report(*crowd, *more, units=units), OVERLAP)[0].remedy

    assert "Give d units of its own, such as unit 3." == remedy(units=3)
    assert "Give d units of its own." == remedy(units=2)
    assert "Give d units of its own." == remedy(units=None)
    assert (
        "Give b units of its own." == found(report(standing("a", 4), standing("b", 4), units=None), OVERLAP)[0].remedy
    )
    assert (
        "Give e units of its own, such as units 3 to 4."
        == found(report(crowd[0], crowd[1], standing("e", 1, 2), units=4), OVERLAP)[0].remedy
    )
    assert (
        "Give e units of its own." == found(report(crowd[0], crowd[1], standing("e", 1, 2), units=3), OVERLAP)[0].remedy
    )


@given(
    st.lists(
        st.tuples(
            st.integers(1, 6),
            st.integers(1, 3),
            st.sampled_from(("front", "rear")),
            st.sampled_from((None, "left", "right")),
        ),
        max_size=5,
    )
)
def test_an_overlap_is_found_just_where_sets_of_units_meet(drawn: list[tuple[int, int, Any, Any]]) -> None:
    """Sets of unit, side and half, built apart from the rule, are the judge."""
    devices = [
        standing(f"d{nth}", unit, height, mounted=side, half=half)
        for nth, (unit, height, side, half) in enumerate(drawn)
    ]
    fills = [
        {(unit + up, side, each) for up in range(height) for each in ("left", "right") if half in (None, each)}
        for unit, height, side, half in drawn
    ]
    meeting = {later for (earlier, later) in combinations(range(len(fills)), 2) if fills[earlier] & fills[later]}

    told = {finding.where[1].name for finding in found(report(*devices), OVERLAP)}

    assert {f"d{nth}" for nth in meeting} == told


@pytest.mark.parametrize(
    ("unit", "height", "outside"), [(12, 1, False), (13, 1, True), (11, 2, False), (12, 2, True), (1, 12, False)]
)
def test_the_highest_unit_must_be_in_the_rack(unit: int, height: int, outside: bool) -> None:
    assert outside == bool(found(report(standing("core", unit, height)), OUTSIDE))


def test_what_stands_out_of_a_rack_fails_with_the_height_that_is_missing() -> None:
    (finding,) = found(report(standing("a", 12, 2), standing("b", 14), standing("c", 2)), OUTSIDE)

    assert ["rack bay", "device b", "device a"] == places(finding)
    assert "bay has 12 units: b in unit 14 and a in units 12 to 13 stand out of it" == finding.message
    assert "Move b and a down to free units, or take a rack that is 2 units (88.9 mm) higher." == finding.remedy
    assert (Measure(14, "units"), Measure(12, "units")) == (finding.measured, finding.limit)
    assert ("fail", "plan") == (finding.severity, finding.source.standing)
    (one,) = found(report(standing("a", 2), units=1), OUTSIDE)
    assert "bay has 1 unit: a in unit 2 stands out of it" == one.message
    assert one.remedy.endswith("take a rack that is 1 unit (44.45 mm) higher.")


def test_a_rack_of_unknown_height_is_told_once_with_the_height_it_needs() -> None:
    (gap,) = gaps(report(standing("a", 3, 2), standing("b", 1), units=None), OUTSIDE)

    assert ["rack bay"] == places(gap)
    assert "The height of bay is not given" == gap.reason
    assert "count its units and write them down as `units`: it needs 4 at least" == gap.decides


def test_an_empty_rack_and_devices_outside_of_racks_are_not_asked() -> None:
    facts = build_facts(plan_of(seat("cut-1"), units=None))

    assert [] == [*UNITS_OVERLAP.subjects(facts), *OUTSIDE_RACK.subjects(facts)]


def test_what_does_not_fit_into_a_rack_says_nothing_about_a_path() -> None:
    core = replace(switch("core"), rack=RackPosition("bay", 13))
    box = replace(vault(), rack=RackPosition("bay", 13))
    cables = (cable("C01", "cut-1/wire", "core/1"), cable("C02", "vault/fast", "core/2"))
    plan = replace(wired(seat("cut-1"), core, box, *cables), racks={"bay": Rack("bay", 12)})

    told = netaudit.check(plan)

    assert [OVERLAP, OUTSIDE] == [finding.rule for finding in told.findings if finding.severity == "fail"]
    assert ["pass"] == [judged.verdict for judged in told.paths]
    assert "two people lift" in UNITS_OVERLAP.todo
    assert "two people lift" in OUTSIDE_RACK.todo
