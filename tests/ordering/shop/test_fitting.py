"""The plan as it will be plugged together."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import G, cable, cage, device, rates, switch, wired

from netaudit.model.plan import Port
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.module_choice import choices
from netaudit.ordering.shop.fitting import Fitted, fitted


def fit(*things: Any) -> Fitted:
    plan = wired(*things)
    topology = build_topology(plan)
    return fitted(plan, topology, choices(plan, topology).chosen)


def wide(phy: str | None = None) -> Port:
    return Port("qsfp+", rates(40), module=phy)


def test_a_module_that_was_chosen_sits_in_its_cage_and_nothing_else_changes() -> None:
    things = (
        switch("a", {"1": cage(), "2": cage()}), switch("b", {"1": cage()}), switch("c"), cable("F1", "a/1", "b/1", "OS2"),
    )  # fmt: skip
    before, after = wired(*things), fit(*things).plan
    assert ["10GBASE-LR", None] == [port.module for port in after.devices["a"].ports.values()]
    assert "10GBASE-LR" == after.devices["b"].ports["1"].module
    assert before.devices["c"] is after.devices["c"]
    assert (list(before.devices), before.cables) == (list(after.devices), after.cables)


def test_a_made_up_cable_has_the_rates_that_its_link_may_come_to_run() -> None:
    things = (switch("a", {"1": cage(25, 10), "2": cage()}), switch("b", {"1": cage(10, 1), "2": Port("sfp+")}))
    lines = (cable("D1", "a/1", "b/1", "twinax", 1.0), cable("D2", "a/2", "b/2", "active-optical", 1.0))
    assert {"D1": (10 * G,), "D2": (10 * G, G)} == fit(*things, *lines).rates_bit_per_s


def test_the_lanes_of_a_breakout_have_the_rates_that_all_of_them_can_run() -> None:
    """Four lanes of a 40 Gb/s cage have 10 Gb/s each: IEEE 802.3 clause 85."""
    trunk = switch("a", {"1": Port("qsfp28", rates(100, 40))})
    tails = switch("b", {str(n): Port("sfp28", rates(25, 10)) for n in (1, 2, 3)} | {"4": cage(10)})
    line = cable("D1", "a/1", [f"b/{n}" for n in range(1, 5)], "twinax", 1.0)
    assert {"D1": (10 * G,)} == fit(trunk, tails, line).rates_bit_per_s


def test_cables_of_unknown_rate_and_of_other_kinds_have_none() -> None:
    things = (switch("a", {"1": Port("sfp+"), "2": cage()}), switch("b", {"1": Port("sfp+"), "2": cage()}))
    lines = (cable("D1", "a/1", "b/1", "twinax", 1.0), cable("F2", "a/2", "b/2", "OM4"))
    assert {} == fit(*things, *lines).rates_bit_per_s


@pytest.mark.parametrize(
    ("near", "far", "expected"),
    [
        (cage(module="10GBASE-LR"), cage(), 2),
        (cage(module="10GBASE-BR10-U"), cage(), 1),
        (wide("40GBASE-SR4"), wide(), 8),
        (wide("40GBASE-LR4"), wide(), 2),
        (wide("40GBASE-SR4"), wide("40GBASE-LR4"), 8),
    ],
)
def test_each_fibre_of_a_link_has_the_fibres_that_its_modules_use(near: Port, far: Port, expected: int) -> None:
    """Eight fibres of 40GBASE-SR4: IEEE 802.3 clause 86; two directions on one fibre of 10GBASE-BR10: clause 158."""
    joint = device("tray", "panel", {"1": Port("mpo")})
    things = (switch("a", {"1": near}), joint, switch("b", {"1": far}))
    lines = (cable("F1", "a/1", "tray/1", "OS2"), cable("F2", "tray/1", "b/1", "OS2"))
    assert {"F1": expected, "F2": expected} == fit(*things, *lines).fibres


@pytest.mark.parametrize("turned", [False, True])
def test_a_breakout_uses_the_fibres_of_its_trunk_and_each_tail_goes_on_with_its_own(turned: bool) -> None:
    trunk = switch("z" if turned else "a", {"1": wide("40GBASE-SR4")})
    tray = device("tray", "panel", {str(n): Port("lc") for n in (1, 2, 3, 4)})
    seats = switch("m", {str(n): cage(10, module="10GBASE-SR") for n in (1, 2, 3, 4)})
    line = cable("F0", f"{trunk.name}/1", [f"tray/{n}" for n in (1, 2, 3, 4)], "OM4")
    tails = [cable(f"F{n}", f"tray/{n}", f"m/{n}", "OM4") for n in (1, 2, 3, 4)]
    devices = (seats, tray, trunk) if turned else (trunk, tray, seats)
    assert {"F0": 8, "F1": 2, "F2": 2, "F3": 2, "F4": 2} == fit(*devices, line, *tails).fibres


def test_a_fibre_that_leads_nowhere_yet_uses_what_the_module_at_its_own_end_does() -> None:
    tray = device("tray", "panel", {str(n): Port("lc") for n in range(4)})
    things = (switch("a", {"1": wide("40GBASE-SR4"), "2": cage(module="10GBASE-BR10-D"), "3": cage()}), tray)
    lines = (
        cable("F1", "a/1", ["tray/0", "tray/1"], "OM4"), cable("F2", "tray/2", "a/2", "OS2"),
        cable("F3", "tray/3", ["a/2", "a/3"], "OS2"),
    )  # fmt: skip
    assert {"F1": 8, "F2": 1} == fit(*things, *lines).fibres


def test_fibres_without_a_known_module_have_no_number() -> None:
    things = (switch("a", {"1": wide()}), switch("b", {"1": wide()}), cable("F1", "a/1", "b/1", "OM4"))
    assert {} == fit(*things).fibres
