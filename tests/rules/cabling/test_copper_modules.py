"""Modules for twisted pair in cages: their reach and their heat."""

from __future__ import annotations

import pytest
from rooms import places
from runs import cord, only, only_gap, run_plan, run_report, silent, solid
from wiring import cable, cage, jack, seat, switch, wired

import netaudit
from netaudit.model.plan import Port
from netaudit.model.report import Report
from netaudit.rules.cabling.copper_modules import COPPER_MODULE_HEAT, COPPER_MODULE_REACH
from netaudit.standards.modules import CopperModule, copper_modules

REACH = "copper-module-reach"
HEAT = "copper-module-heat"
HOT = cage(10, module="10GBASE-T")
COOL = cage(10)
MODULES = list(copper_modules().values())


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.phy)
def test_a_module_is_good_to_its_reach_and_not_a_centimetre_further(module: CopperModule) -> None:
    far = cage(10, module=module.phy)
    assert silent(run_report(solid("W01", module.reach_m), far=far), REACH)
    finding = only(run_report(solid("W01", module.reach_m + 0.01), far=far), REACH)
    assert ("warn", module.source) == (finding.severity, finding.source)
    assert ((module.reach_m + 0.01, "m"), (module.reach_m, "m")) == (finding.measured, finding.limit)


def test_thirty_metres_are_what_makers_print() -> None:
    """Data sheet ES-T5-R.1 (NetFPGA-public, files/6161691): 10GBASE-T over CAT6A, 30 m."""
    assert silent(run_report(cord("C01", 3), solid("W01", 27), far=HOT), REACH)
    finding = only(run_report(cord("C01", 4), solid("W01", 40), far=HOT), REACH)
    assert ["port core/1", "port cut-1/wire", "cable W01", "cable C01"] == places(finding)
    assert "C01 + W01: 44 m on the 10GBASE-T module in core/1, and such modules are made for 30 m" == finding.message
    assert (
        "Shorten the run to 30 m, use a built-in port for twisted pair instead of core/1, or lay fibre with modules for "
        "it at both ends." == finding.remedy
    )


def test_modules_at_both_ends_are_both_named() -> None:
    plan = wired(switch("one", {"1": HOT}), switch("other", {"1": HOT}), cable("W01", "one/1", "other/1", "6A", 31.0))
    finding = only(netaudit.check(plan), REACH)
    assert ["port one/1", "port other/1", "cable W01"] == places(finding)
    assert "module in one/1 and other/1" in finding.message


@pytest.mark.parametrize(
    "far", [jack(), Port(connector="rj45", module="10GBASE-T"), cage(10, 1), cage(10, module="10GBASE-SR")]
)
def test_a_built_in_port_an_empty_cage_and_another_module_are_not_asked(far: Port) -> None:
    assert silent(run_report(solid("W01", 60), far=far), REACH)


def test_a_port_of_unknown_connector_with_such_a_module_is_a_cage() -> None:
    assert only(run_report(solid("W01", 60), far=Port(module="10GBASE-T")), REACH)


def test_an_unknown_length_is_open_until_the_known_part_is_too_long() -> None:
    gap = only_gap(run_report(cord("C01", 4), solid("W01", None), far=HOT), REACH)
    assert ("cable W01", "measure W01: up to 26 m is good") == (str(gap.where[0]), gap.decides)
    assert "at least 31 m" in only(run_report(cord("C01", None), solid("W01", 31), far=HOT), REACH).message


def heat(*ports: Port, **named: Port) -> Report:
    """The verdict on a switch with those ports, in that order."""
    return netaudit.check(wired(switch("core", {**{str(at): port for at, port in enumerate(ports, 1)}, **named})))


def test_two_modules_side_by_side_are_too_hot() -> None:
    """SFF-8419, level III: 2.0 W (wavesplitter.jp on SFF-8431); industrialmonitordirect.com: about 3 W each."""
    finding = only(heat(COOL, HOT, HOT, COOL, COOL, HOT, COOL), HEAT)
    assert ["device core", "port core/2", "port core/3"] == places(finding)
    assert "warn" == finding.severity
    assert ((3.0, "W"), (2.0, "W")) == (finding.measured, finding.limit)
    assert (
        "core/2 and core/3 hold 10GBASE-T modules side by side: each draws 2.5 to 3 W, and a cage is made for 2 W at the "
        "most" == finding.message
    )
    assert finding.remedy.startswith(
        "Leave a cage free beside each such module and fill no more than half of the cages"
    )
    assert MODULES[0].cage.source == finding.source


def test_three_in_a_row_are_each_named_once() -> None:
    assert ["device core", "port core/1", "port core/2", "port core/3"] == places(only(heat(HOT, HOT, HOT), HEAT))


def test_more_than_half_of_the_cages_are_too_many_even_apart() -> None:
    finding = only(heat(HOT, COOL, HOT), HEAT)
    assert "core/1 and core/3 hold 10GBASE-T modules in 2 of 3 cages" in finding.message
    assert silent(heat(HOT, COOL, HOT, COOL), HEAT)


def test_a_built_in_port_between_two_cages_keeps_them_apart_but_is_no_cage() -> None:
    assert silent(heat(HOT, jack(), HOT, COOL, COOL), HEAT)
    assert "in 2 of 3 cages" in only(heat(HOT, jack(), HOT, jack(), COOL), HEAT).message


@pytest.mark.parametrize("ports", [(HOT,), (HOT, COOL), (HOT, jack())])
def test_one_module_alone_is_no_matter(ports: tuple[Port, ...]) -> None:
    assert silent(heat(*ports), HEAT)


def test_only_devices_with_such_a_module_are_asked() -> None:
    assert heat(COOL, COOL).summary.checked == heat(COOL, COOL, COOL).summary.checked
    assert heat(HOT, COOL).summary.checked > heat(COOL, COOL).summary.checked


def test_modules_in_a_seat_count_as_in_a_switch() -> None:
    plan = wired(seat("cut-1", {"one": HOT, "two": HOT}))
    assert ["device cut-1", "port cut-1/one", "port cut-1/two"] == places(only(netaudit.check(plan), HEAT))


def test_a_room_without_such_modules_is_not_asked() -> None:
    report = netaudit.check(run_plan(solid("W01", 60)))
    assert silent(report, REACH)
    assert silent(report, HEAT)


def test_every_source_of_the_table_is_named() -> None:
    assert {module.source for module in MODULES} == set(COPPER_MODULE_REACH.sources())
    assert {module.cage.source for module in MODULES} == set(COPPER_MODULE_HEAT.sources())


def test_two_neighbours_are_side_by_side_even_where_they_are_the_only_ones() -> None:
    assert "side by side" in only(heat(COOL, HOT, HOT, COOL, COOL), HEAT).message
