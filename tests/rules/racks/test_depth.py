"""The rule about depth."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal

import pytest
from rooms import found, gaps, places
from wiring import device, wired

import netaudit
from netaudit.model.finding import Measure
from netaudit.model.plan import Device, Plan, Rack, RackPosition
from netaudit.rules.facts import build_facts
from netaudit.rules.racks.depth import TOO_DEEP

NAME = "too-deep"


def standing(name: str, depth_m: float | None, unit: int = 1, height: int = 1, **fields: Any) -> Device:
    """A device of some depth [m] in the rack."""
    return device(name, "other", {}, depth_m=depth_m, rack=RackPosition("bay", unit, height, **fields))


def plan_of(*devices: Device, depth_m: float | None = 0.6) -> Plan:
    return replace(wired(*devices), racks={"bay": Rack("bay", 12, depth_m)})


def findings(*devices: Device, depth_m: float | None = 0.6) -> list[Any]:
    return found(netaudit.check(plan_of(*devices, depth_m=depth_m)), NAME)


def test_a_device_that_is_deeper_than_its_rack_warns() -> None:
    (finding,) = findings(standing("vault", 0.64))

    assert ["rack bay", "device vault"] == places(finding)
    assert "vault is 640 mm deep, and bay has room for 600 mm" == finding.message
    assert "Put vault into a rack that is deeper than 640 mm: plugs and air need room behind it." == finding.remedy
    assert (Measure(640, "mm"), Measure(600, "mm")) == (finding.measured, finding.limit)
    assert ("warn", "plan") == (finding.severity, finding.source.standing)
    assert "two people lift" in TOO_DEEP.todo


@pytest.mark.parametrize(
    ("depth_m", "deep"), [(0.5999, False), (0.6, False), (0.60004, False), (0.6001, True), (0.601, True)]
)
def test_as_deep_as_the_rack_still_fits(depth_m: float, deep: bool) -> None:
    assert deep == bool(findings(standing("vault", depth_m)))


def test_depths_are_compared_to_the_tenth_of_a_millimetre() -> None:
    assert [] == findings(standing("vault", 0.6), depth_m=0.59996)
    assert 1 == len(findings(standing("vault", 0.6), depth_m=0.5999))


def test_back_to_back_both_depths_count_together() -> None:
    (finding,) = findings(standing("vault", 0.35), standing("panel", 0.26, mounted="rear"))

    assert ["rack bay", "device panel", "device vault"] == places(finding)
    assert (
        "panel and vault, back to back in the same units, are 610 mm deep together, and bay has room for 600 mm"
        == finding.message
    )
    assert "Move panel or vault to other units: plugs and air need room between them as well." == finding.remedy
    assert (Measure(610, "mm"), Measure(600, "mm")) == (finding.measured, finding.limit)


@pytest.mark.parametrize(("rear_m", "deep"), [(0.2, False), (0.2001, True)])
def test_together_as_deep_as_the_rack_still_fits(rear_m: float, deep: bool) -> None:
    """0.1 + 0.2 is a little over 0.3 in floating point, and 300 mm all the same."""
    pair = (standing("a", 0.1), standing("b", rear_m, mounted="rear"))

    assert deep == bool(findings(*pair, depth_m=0.3))
    assert deep == bool(findings(*pair[::-1], depth_m=0.3))


def test_only_common_units_and_common_halves_stand_back_to_back() -> None:
    assert [] == findings(standing("a", 0.4, 1, 2), standing("b", 0.4, 3, mounted="rear"))
    assert 1 == len(findings(standing("a", 0.4, 1, 2), standing("b", 0.4, 2, mounted="rear")))
    assert [] == findings(standing("a", 0.4, half="left"), standing("b", 0.4, half="right", mounted="rear"))
    assert 1 == len(findings(standing("a", 0.4, half="left"), standing("b", 0.4, mounted="rear")))


@pytest.mark.parametrize("side", ["front", "rear"])
def test_two_at_one_side_do_not_stand_back_to_back(side: Literal["front", "rear"]) -> None:
    assert [] == findings(standing("a", 0.4, mounted=side), standing("b", 0.4, mounted=side))


def test_the_deepest_behind_a_device_is_the_one_that_it_meets() -> None:
    (finding,) = findings(
        standing("a", 0.3, 1), standing("b", 0.4, 2), standing("c", 0.35, 2), standing("d", 0.25, 1, 2, mounted="rear")
    )  # fmt: skip

    assert ["rack bay", "device d", "device b"] == places(finding)


def test_what_gives_no_depth_is_not_asked_and_meets_nothing() -> None:
    assert [] == list(TOO_DEEP.subjects(build_facts(plan_of(standing("a", None)))))
    assert [] == list(TOO_DEEP.subjects(build_facts(plan_of(standing("a", None), depth_m=None))))
    assert [] == findings(standing("a", None), standing("b", 0.6, mounted="rear"))


def test_a_rack_of_unknown_depth_is_told_once_by_its_deepest_device() -> None:
    plan = plan_of(standing("a", 0.3), standing("b", 0.45, 2), standing("c", 0.4, 3), depth_m=None)

    (gap,) = gaps(netaudit.check(plan), NAME)

    assert ["rack bay"] == places(gap)
    assert "The depth of bay is not given" == gap.reason
    assert (
        "measure from its front rails to whatever closes the back, and write it down as `depth`: b is 450 mm deep"
        == gap.decides
    )
