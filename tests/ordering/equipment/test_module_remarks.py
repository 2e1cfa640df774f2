"""What to know or to settle before modules are ordered."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import cable, cage, device, jack, seat, switch, vault, wired

from netaudit.model.plan import Plan, Port
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.module_choice import choices
from netaudit.ordering.equipment.module_remarks import LIGHT, SPARE_CODING, module_remarks
from netaudit.ordering.equipment.modules import needed_modules
from netaudit.ordering.shop.shopping import shopping


def told(plan: Plan) -> tuple[str, ...]:
    topology = build_topology(plan)
    made = choices(plan, topology)
    needed = needed_modules(plan, topology, made.chosen)
    return module_remarks(plan, topology, made, needed, shopping(plan).made_up)


def remarks(*things: Any) -> tuple[str, ...]:
    return told(wired(*things))


def sfp(phy: str | None = None, **fields: Any) -> Port:
    return cage(module=phy, **fields)


UPLINK = (
    switch("core", {"17": cage()}),
    switch("loft", {"up": cage()}),
    cable("F1", "core/17", "loft/up", "OM4", 30.0),
)


def test_what_was_chosen_is_told_as_chosen() -> None:
    assert (
        "The plan names no module for core/17 and loft/up: 10GBASE-SR is what follows from the fibre and both ends. "
        "Write `module: 10GBASE-SR` into the plan, so that it is checked."
    ) == remarks(*UPLINK)[0]


def test_the_makers_coding_and_the_light_are_told_with_every_module_for_fibre() -> None:
    assert (
        "Some makers' cages take only modules coded for them, so order each one for the device that it goes into: "
        "10GBASE-SR for core/17 and loft/up.",
        SPARE_CODING,
        LIGHT,
    ) == remarks(*UPLINK)[1:]


@pytest.mark.parametrize("category", ["twinax", "active-twinax", "active-optical"])
def test_made_up_cables_are_coded_at_each_end_and_each_pair_of_devices_is_told_once(category: Any) -> None:
    ends = {str(number): cage() for number in range(3)}
    things = (switch("core", ends), vault(ports=ends), switch("loft", ends))
    lines = (
        cable("D1", "core/0", "vault/0", category, 1.0),
        cable("D2", "core/1", "loft/1", category, 1.0),
        cable("D3", "core/2", "vault/2", category, 1.0),
        cable("D4", "loft/2", "vault/1", category, 1.0, owned=True),
    )
    assert (
        "Made-up cables carry a code at each end, so order each one for the devices at both: D1 and D3 for core and "
        "vault; D2 for core and loft.",
        SPARE_CODING,
    ) == remarks(*things, *lines)


def test_of_many_pairs_of_devices_eight_are_told_and_the_others_counted() -> None:
    ends = {str(number): cage() for number in range(10)}
    far = [switch(f"s{number}", {"1": cage()}) for number in range(10)]
    lines = [cable(f"D{number}", f"core/{number}", f"s{number}/1", "twinax", 1.0) for number in range(10)]
    remark = remarks(switch("core", ends), *far, *lines)[0]
    assert remark.endswith("; D7 for core and s7; and 2 more pairs.")
    assert "D8" not in remark


def test_the_light_is_told_with_fibre_alone_and_with_a_module_alone() -> None:
    tray = device("tray", "panel", {"1": Port("lc"), "2": Port("lc")})

    assert (LIGHT,) == remarks(tray, cable("F1", "tray/1", "tray/2", "OM4"))
    assert (
        LIGHT
        == remarks(
            switch("core", {"1": sfp("10GBASE-SR")}),
            switch("b", {"1": cage()}),
            cable("X1", "core/1", "b/1", "unknown"),
        )[-1]
    )


def test_a_plan_without_cages_and_fibre_has_no_remark() -> None:
    assert () == remarks(seat("cut-1"), vault(), cable("C1", "cut-1/wire", "vault/fast"))
    assert () == told(Plan(file="room.yaml"))


@pytest.mark.parametrize(
    ("ports", "sentence"),
    [
        (["10"], "sw/10 names a module, but no cable ends there: none is ordered for it."),
        (["10", "11"], "sw/10 and sw/11 name a module, but no cable ends there: none is ordered for them."),
    ],
)
def test_a_module_named_where_no_cable_ends_is_told_and_not_ordered(ports: list[str], sentence: str) -> None:
    core = switch("sw", {name: sfp("10GBASE-SR") for name in ports} | {"1": sfp("10GBASE-SR", owned=True)})
    assert (sentence,) == remarks(core)


def test_a_port_that_is_no_cage_takes_no_module_and_it_is_said_once() -> None:
    core = switch("core", {"1": jack(module="10GBASE-SR"), "2": jack(module="10GBASE-SR", owned=True)})
    assert ("core/1 is no cage: the module named there is not ordered.",) == remarks(core)


def test_ports_that_are_no_cages_are_told_together() -> None:
    core = switch("core", {"1": jack(module="10GBASE-SR"), "2": jack(module="10GBASE-SR")})
    assert ("core/1 and core/2 are no cages: the modules named there are not ordered.",) == remarks(core)


@pytest.mark.parametrize(
    ("ends", "sentence"),
    [
        (["9"], "core/9 is a cage, and C9 is twisted pair: name the module, or use another port."),
        (
            ["9", "10"],
            "core/9 and core/10 are cages, and C9 and C10 are twisted pair: name the modules, or use other ports.",
        ),
    ],
)
def test_twisted_pair_in_a_bare_cage_is_a_question(ends: list[str], sentence: str) -> None:
    seats = [seat(f"cut-{end}") for end in ends]
    lines = [cable(f"C{end}", f"cut-{end}/wire", f"core/{end}") for end in ends]
    assert (sentence,) == remarks(*seats, switch("core", {"9": cage(), "10": cage()}), *lines)


def test_a_cord_between_two_bare_cages_names_both() -> None:
    things = (switch("a", {"1": cage()}), switch("b", {"1": cage()}), cable("C1", "a/1", "b/1"))
    assert ("a/1 and b/1 are cages, and C1 is twisted pair: name the modules, or use other ports.",) == remarks(*things)


def test_what_cannot_be_chosen_is_asked_with_the_reason() -> None:
    far = vault(ports={"fast": cage(owned=True)})
    assert (
        "Name the modules for core/9 and vault/fast: vault/fast is owned, and the plan does not say which module sits "
        "in it."
    ) == remarks(switch("core", {"9": cage()}), far, cable("F1", "core/9", "vault/fast", "OM4"))[0]


def test_ports_that_are_asked_about_for_one_reason_are_one_question() -> None:
    far = switch("b", {str(n): cage() for n in range(1, 5)})
    trunk = switch("a", {"1": Port("qsfp+")})
    line = cable("F1", "a/1", [f"b/{n}" for n in range(1, 5)], "OM4")
    assert [
        "Name the modules for a/1, b/1, b/2, b/3 and b/4: the modules of a breakout have to be made for each other."
    ] == [remark for remark in remarks(trunk, far, line) if remark.startswith("Name")]


def test_one_port_is_asked_about_as_one() -> None:
    things = (switch("a", {"1": cage()}), switch("b", {"1": sfp("10GBASE-T")}), cable("F1", "a/1", "b/1", "OM4"))
    assert "Name the module for a/1: the far end names 10GBASE-T, which is not for fibre." == remarks(*things)[0]


def test_two_halves_of_a_pair_are_told_so_that_nobody_orders_two_alike() -> None:
    things = (
        switch("a", {"1": sfp("10GBASE-BR10-D")}),
        switch("b", {"1": cage()}),
        cable("F1", "a/1", "b/1", "OS2", fibres=1),
    )
    assert (
        "These ends take two different modules that belong together; do not order two alike: 10GBASE-BR10-D in a/1 "
        "with 10GBASE-BR10-U in b/1."
    ) in remarks(*things)


def test_modules_that_never_link_are_to_be_settled_before_ordering() -> None:
    things = (
        switch("a", {"1": sfp("10GBASE-SR")}),
        switch("b", {"1": sfp("10GBASE-LR")}),
        cable("F1", "a/1", "b/1", "OM4"),
    )
    assert (
        "These modules do not belong together, so settle which one stays before ordering: 10GBASE-SR in a/1 with "
        "10GBASE-LR in b/1."
    ) in remarks(*things)


def test_a_module_beside_a_cable_with_ends_of_its_own_is_told() -> None:
    things = (
        switch("a", {"1": sfp("10GBASE-SR")}),
        switch("b", {"1": cage()}),
        cable("D1", "a/1", "b/1", "twinax", 1.0),
    )
    assert (
        "D1 has ends made on, and the plan names a module for a/1 too: settle which one it is; the bill has both."
    ) in remarks(*things)


def test_modules_for_twisted_pair_come_with_their_reach_and_their_heat() -> None:
    """30 m and up to 3 W: makers' data sheets; 2 W at power level III: SFF-8431, as kernel.org's sff,sfp.yaml has it."""
    things = (seat("cut-1"), switch("core", {"9": sfp("10GBASE-T")}), cable("C1", "cut-1/wire", "core/9"))
    assert (
        "A 10GBASE-T module reaches 30 m and draws up to 3 W, where a cage is made for 2 W: leave a cage free beside "
        "each (core/9), and ask how many of them the device bears."
    ) in remarks(*things)
    assert LIGHT not in remarks(*things)


def test_names_are_told_as_they_are_written() -> None:
    core = switch("{core} %s", {"<9>": sfp("10GBASE-SR")})
    assert any("{core} %s/<9>" in remark for remark in remarks(core))


def test_the_lanes_of_a_parallel_module_are_no_strangers_to_the_modules_at_its_tails() -> None:
    trunk = switch("core", {"q": cage(40, module="40GBASE-SR4")._replace(connector="qsfp+")})
    tails = [switch(name, {"1": sfp("10GBASE-SR")}) for name in "abcd"]
    lead = cable("B1", "core/q", [f"{name}/1" for name in "abcd"], "OM4", 5.0)

    assert not any("do not belong together" in one for one in remarks(trunk, *tails, lead))
