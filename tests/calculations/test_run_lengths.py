"""Lengths that are worked out: what is told of them, what a plan becomes with them, and how `check` takes them."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace

import pytest
from racked import patched, racked
from rooms import found, gaps, plan_of, report_of, room

from netaudit.calculations.run_lengths import measured, with_run_lengths

CORD = "from: bay-panel/1, to: core/1, category: 6A"
SUM = re.compile(r" ([\d.]+) m(?:, |$)")
TOP = """rooms: {loft: {}}
racks: {bay: {units: 12, depth: 600 mm}}
routes: {wall: ROUTE}"""


def in_racks(route: str = "20 m", *, cord: str = "", wall: str = "via: [wall]") -> str:
    """The small room with its panel and switch in a rack, and a wall cable along a route."""
    text = room(None, top=TOP.replace("ROUTE", route))
    for old, new in (
        ("plate: {role: outlet,", "plate: {role: outlet, room: loft,"),
        ("panel: {role: panel,", "panel: {role: panel, rack: {name: bay, unit: 12},"),
        ("role: switch\n", "role: switch\n    rack: {name: bay, unit: 10}\n"),
        ("installed: true", wall),
        ("to: core/1, category: 6A, length: 1 m,", f"to: core/1, category: 6A,{cord}"),
    ):
        assert 1 == text.count(old)
        text = text.replace(old, new)
    return text


@pytest.mark.parametrize(
    "cable",
    [
        CORD,
        "from: vault/1, to: backup/1",
        "from: bay-panel/1, to: [core/1, vault/1]",
        "from: loft-plate/1, to: bay-panel/1, category: 6A, via: [loft-to-bay, duct]",
        "from: cut-1/wire, to: attic/1, via: [duct]",
    ],
)
def test_the_parts_that_are_told_add_up_to_the_length(cable: str) -> None:
    told = measured(racked(cable)).lengths[0]
    parts_m = [float(figure) for figure in SUM.findall(told.how)]

    assert "X01" == told.cable
    assert len(told.how.split(", ")) >= len(parts_m) >= 3
    assert pytest.approx(told.length_m, abs=1e-9) == sum(parts_m)


def test_a_route_of_kilometres_is_told_to_the_centimetre() -> None:
    cable = "from: loft-plate/1, to: bay-panel/1, category: 6A, via: [duct]"
    told = measured(racked(cable, duct="1234.567 m")).lengths[0]

    assert told.how.startswith("duct 1.23457 km, ")
    assert 1234.57 + 8.74 == pytest.approx(told.length_m)


def test_a_length_that_is_given_always_wins() -> None:
    plan = racked(f"{CORD}, length: 7 m")

    assert () == measured(plan).lengths
    assert with_run_lengths(plan) is plan


def test_a_plan_from_which_nothing_follows_stays_the_same_object() -> None:
    plan = racked("from: cut-1/wire, to: loft-plate/1")

    assert with_run_lengths(plan) is plan


def test_a_cable_between_two_rooms_is_unknown_without_its_routes() -> None:
    cable = "from: loft-plate/1, to: bay-panel/1, category: 6A"

    assert () == measured(racked(cable)).lengths
    assert ("X01",) == tuple(one.cable for one in measured(racked(f"{cable}, via: [duct]")).lengths)


def test_a_plan_with_its_lengths_is_the_same_plan_otherwise() -> None:
    plan = racked(CORD)
    whole = with_run_lengths(plan)
    same, (told,) = measured(plan)

    assert (whole, whole.assumed) == (same, same.assumed)
    assert told.length_m == whole.cables["X01"].length_m
    assert plan.cables["X01"] == whole.cables["X01"]._replace(length_m=None)
    assert plan == replace(whole, cables=plan.cables)
    assert plan.lines is whole.lines
    assert plan.cables["X01"].length_m is None
    assert with_run_lengths(whole) is whole


def test_up_to_four_cables_are_named_and_the_others_counted() -> None:
    named = "C01 1.18 m, C02 1.18 m, C03 1.18 m, C04 1.18 m"
    start = "lengths worked out from racks and routes: "

    assert (*patched(4).assumed, start + named) == with_run_lengths(patched(4)).assumed
    assert f"{start}{named} and 2 more" == with_run_lengths(patched(6)).assumed[-1]


def test_cables_come_in_the_order_of_the_plan() -> None:
    assert tuple(patched(6).cables) == tuple(one.cable for one in measured(patched(6)).lengths)


@pytest.mark.parametrize("name", ["{x}", "%s", "=1+1", "<b>", "a, b", "ـعربي"])
def test_names_are_told_as_they_are_written(name: str) -> None:
    plan = racked("from: loft-plate/1, to: bay-panel/1, via: [duct]")
    route = plan.routes["duct"]._replace(name=name)
    cable = plan.cables["X01"]._replace(name=name, via=(name,))
    named = replace(plan, routes={name: route}, cables={name: cable})

    assert measured(named).lengths[0].how.startswith(f"{name} 12 m, ")
    assert f"{name} 21.44 m" in with_run_lengths(named).assumed[-1]


def test_a_run_along_routes_that_is_too_long_fails() -> None:
    """ANSI/TIA-568 and ISO/IEC 11801-1: a channel of 100 m. 3 m + (92 + 8.6) m + cord is beyond."""
    (finding,) = found(report_of(in_racks("92 m")), "channel-too-long")

    assert "cable W01" == str(finding.where[0])
    assert finding.measured is not None
    assert finding.measured.value > 100


def test_a_run_along_routes_that_is_short_enough_passes_where_it_was_not_checked() -> None:
    with_route, without = report_of(in_racks()), report_of(in_racks(wall="installed: true"))

    assert ["cable W01"] == [str(gap.where[0]) for gap in gaps(without, "channel-too-long")]
    assert [] == gaps(with_route, "channel-too-long")
    assert ("pass", "incomplete") == (with_route.summary.verdict, without.summary.verdict)


def test_a_cord_in_a_rack_is_checked_without_a_length() -> None:
    report = report_of(in_racks(wall="length: 20 m"))

    assert [] == gaps(report, "channel-too-long")
    assert "pass" == report.summary.verdict
    assert "lengths worked out from racks and routes: P01 1.18 m" in report.assumed


def test_what_is_given_is_judged_as_before() -> None:
    """Racks and routes change nothing where every length is given."""
    given = in_racks(cord=" length: 1 m,", wall="length: 20 m")
    plain = room("20 m").replace(", installed: true", "")

    assert with_run_lengths(plan_of(given)) == plan_of(given)
    hops = [report_of(text).paths[0].path.hops for text in (given, plain)]
    assert hops[0] == hops[1]


def test_a_plan_that_gives_every_length_pays_for_no_table() -> None:
    code = (
        "import sys, netaudit.audit\n"
        "from netaudit.plan.load import loads\n"
        f"netaudit.audit.audit(loads({room()!r}, 'room.yaml'))\n"
        "print([name for name in ('run_ways', 'run_geometry') if f'netaudit.calculations.{name}' in sys.modules],"
        " [name for name in ('netaudit.standards.runs', 'netaudit.model.bill') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "[] []" == done.stdout.strip()
