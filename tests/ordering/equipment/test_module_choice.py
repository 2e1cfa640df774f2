"""Which module goes into a cage that names none."""

from __future__ import annotations

import pytest
from wiring import G, cable, cage, device, jack, rates, ref, switch, topology_of, vault, wired

from netaudit.model.plan import Category, Port
from netaudit.ordering.equipment.module_choice import USUAL, Choices, bare_ends, choices, in_plan_order, takes, unnamed
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys


def made(near: Port, far: Port, category: Category = "OM4", length_m: float | None = 30.0, **fields: object) -> Choices:
    """The choice for one fibre between two switches."""
    things = (
        switch("a", {"1": near}),
        switch("b", {"1": far}),
        cable("F1", "a/1", "b/1", category, length_m, **fields),
    )
    return choices(wired(*things), topology_of(*things))


def chosen(result: Choices) -> list[str | None]:
    return [result.chosen.get(ref(end)) for end in ("a/1", "b/1")]


def why(result: Choices) -> str:
    ((_, reason),) = result.asked
    return reason


def cage_of(connector: str, *gigabits: float, **fields: object) -> Port:
    return Port(connector=connector, rates=rates(*gigabits), **fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("near", "far", "category", "length_m", "phy"),
    [
        (cage(), cage(), "OM4", 400.0, "10GBASE-SR"),
        (cage(), cage(), "OM3", 300.0, "10GBASE-SR"),
        (cage(), cage(), "OS2", 10_000.0, "10GBASE-LR"),
        (cage(), cage_of("sfp", 1), "OM3", 100.0, "1000BASE-SX"),
        (cage(), cage_of("sfp", 1), "OS2", 8_000.0, "1000BASE-LX10"),
        (cage_of("sfp28", 25, 10), cage_of("sfp28", 25, 10), "OM4", 100.0, "25GBASE-SR"),
        (cage_of("sfp28", 25, 10), cage(), "OM4", 100.0, "10GBASE-SR"),
        (cage_of("sfp28", 25, 10), cage_of("sfp28", 25, 10), "OM4", 101.0, "10GBASE-SR"),
        (cage(), cage(), "OM3", 301.0, "1000BASE-SX"),
        (cage_of("qsfp+", 40), cage_of("qsfp+", 40), "OS2", 500.0, "40GBASE-LR4"),
    ],
)
def test_two_bare_cages_get_the_usual_module_of_the_highest_rate_that_reaches(
    near: Port, far: Port, category: Category, length_m: float, phy: str
) -> None:
    """Reach: IEEE 802.3 tables 38-2, 52-6 and 52-11, 59.4, 87.1, 112.1 and 114.6, from memory."""
    result = made(near, far, category, length_m)
    assert ([phy, phy], ()) == (chosen(result), result.asked)


@pytest.mark.parametrize("length_m", [None, 30.0])
def test_a_length_that_is_not_known_leaves_the_choice_as_it_is(length_m: float | None) -> None:
    assert ["10GBASE-SR", "10GBASE-SR"] == chosen(made(cage(), cage(), "OM4", length_m))


def test_a_far_end_that_names_its_module_is_given_the_same_or_the_other_half() -> None:
    assert [None, "10GBASE-LR"] == chosen(made(cage(module="10GBASE-LR"), cage(), "OS2"))
    assert ["10GBASE-BR10-U", None] == chosen(made(cage(), cage(module="10GBASE-BR10-D"), "OS2"))


def test_a_module_that_does_not_work_at_the_near_end_is_asked_about() -> None:
    result = made(cage_of("sfp", 1), cage(module="10GBASE-SR"))
    assert ([None, None], "the 10GBASE-SR that the far end asks for does not work there") == (
        chosen(result),
        why(result),
    )


@pytest.mark.parametrize(
    ("near", "far", "category", "length_m"),
    [
        (cage_of("qsfp28", 100), cage_of("qsfp28", 100), "OS2", 100.0),
        (cage_of("qsfp+", 40), cage_of("qsfp+", 40), "OM4", 100.0),
        (cage(10), cage(10), "OM1", 200.0),
        (cage(10), cage(10), "OS2", 10_001.0),
        (cage(10), cage(1), "OM4", 10.0),
    ],
    ids=["several at one rate", "eight fibres", "long reach over old multimode", "too long", "no common rate"],
)
def test_where_no_one_module_is_usual_it_is_asked_about(
    near: Port, far: Port, category: Category, length_m: float
) -> None:
    result = made(near, far, category, length_m)
    assert ([None, None], "no one module is usual for these cages over this fibre") == (chosen(result), why(result))


def test_an_owned_cage_without_a_name_for_its_module_is_asked_about() -> None:
    result = made(cage(owned=True), cage())
    assert ([None, None], "a/1 is owned, and the plan does not say which module sits in it") == (
        chosen(result),
        why(result),
    )


def test_a_far_end_that_is_no_cage_is_asked_about() -> None:
    result = made(cage(), Port("lc", rates(10)))
    assert (((ref("a/1"),), "the far end is no cage, and the plan does not say what light it sends"),) == result.asked


def test_the_cages_of_a_breakout_are_asked_about() -> None:
    things = (
        switch("a", {"1": cage_of("qsfp+", 40)}),
        switch("b", {"1": cage(10), "2": cage(10)}),
        cable("F1", "a/1", ["b/1", "b/2"], "OM4"),
    )
    result = choices(wired(*things), topology_of(*things))
    assert {} == result.chosen
    assert {"the modules of a breakout have to be made for each other"} == {reason for _, reason in result.asked}
    assert {ref("a/1"), ref("b/1"), ref("b/2")} == {port for ports, _ in result.asked for port in ports}


def test_fibre_through_a_panel_is_one_channel_with_a_module_at_each_end() -> None:
    joint = device("tray", "panel", {"1": Port("lc")})
    things = (switch("a", {"1": cage()}), joint, vault(ports={"fast": cage(10)}))
    lines = (cable("F1", "a/1", "tray/1", "OM4", 5.0), cable("F2", "tray/1", "vault/fast", "OM4", 30.0))
    result = choices(wired(*things, *lines), topology_of(*things, *lines))
    assert {ref("a/1"): "10GBASE-SR", ref("vault/fast"): "10GBASE-SR"} == result.chosen


@pytest.mark.parametrize(
    ("far", "reason"),
    [
        (cage(module="10GBASE-T"), "the far end names 10GBASE-T, which is not for fibre"),
        (cage(module="10GSFP+Cu"), "the far end names 10GSFP+Cu, which is not for fibre"),
        (jack(), "the way to the far end is not all fibre"),
        (Port("thunderbolt"), "the way to the far end is not all fibre"),
    ],
)
def test_a_cage_on_a_fibre_that_meets_something_else_is_not_forgotten(far: Port, reason: str) -> None:
    assert Choices({}, (((ref("a/1"),), reason),)) == made(cage(), far)


def test_a_fibre_that_goes_on_as_twisted_pair_is_asked_about_at_both_ends() -> None:
    joint = device("tray", "panel", {"1": Port("lc")})
    things = (switch("a", {"1": cage()}), joint, switch("b", {"1": cage()}))
    lines = (cable("F1", "a/1", "tray/1", "OM4"), cable("C1", "tray/1", "b/1", "6A"))
    result = choices(wired(*things, *lines), topology_of(*things, *lines))
    assert (((ref("a/1"), ref("b/1")), "the way to the far end is not all fibre"),) == result.asked


@pytest.mark.parametrize("fields", [{}, {"installed": True}])
def test_a_fibre_that_ends_at_a_panel_leaves_its_module_open(fields: dict[str, bool]) -> None:
    joint = device("tray", "panel", {"1": Port("lc")})
    things = (switch("a", {"1": cage()}), joint, cable("F1", "a/1", "tray/1", "OM4", **fields))
    result = choices(wired(*things), topology_of(*things))
    assert Choices({}, (((ref("a/1"),), "the fibre leads to no other machine yet"),)) == result


def test_bare_ends_are_the_cages_of_one_plug_that_name_no_module() -> None:
    things = (
        switch("a", {"1": cage(), "2": cage(), "3": cage(module="10GBASE-SR"), "4": jack()}),
        switch("b", {str(n): cage() for n in range(1, 5)}),
        cable("F1", "a/1", "b/1", "OM4"), cable("C2", "b/2", "a/2"), cable("F3", "a/3", "b/3", "OS2"),
        cable("C4", "a/4", "b/4"),
    )  # fmt: skip
    plan = wired(*things)
    assert {ref("a/1"): "F1", ref("b/1"): "F1", ref("b/3"): "F3"} == bare_ends(plan, "fibre")
    assert [ref("b/2"), ref("a/2"), ref("b/4")] == list(bare_ends(plan, "twisted pair"))


def test_cages_that_nobody_named_a_module_for_are_told_in_plan_order_but_for_those_that_are_owned() -> None:
    things = (
        switch("core", {"1": cage(), "2": cage(10), "3": cage(), "4": cage(module="10GBASE-SR"), "5": cage()}),
        switch("far", {"1": cage(owned=True), "2": cage(), "3": jack(), "4": cage(), "5": cage(owned=True)}),
        cable("C5", "core/5", "far/5"), cable("C3", "core/3", "far/3"), cable("F2", "core/2", "far/2", "OM1", 200.0),
        cable("F1", "core/1", "far/1", "OM4"), cable("F4", "core/4", "far/4", "OM4"),
    )  # fmt: skip
    plan = wired(*things)
    found = unnamed(plan, choices(plan, topology_of(*things)))
    assert ("core/1", "core/2", "core/3", "core/5", "far/2") == tuple(map(str, found))


def test_a_cage_whose_module_follows_from_another_of_its_cables_is_named() -> None:
    things = (
        switch("a", {"1": cage()}), switch("b", {"1": jack()}), switch("c", {"1": cage()}),
        cable("F1", "a/1", "b/1", "OM4"), cable("F2", "a/1", "c/1", "OM4"),
    )  # fmt: skip
    plan = wired(*things)
    assert () == unnamed(plan, choices(plan, topology_of(*things)))


def test_ports_are_told_in_the_order_of_the_plan() -> None:
    plan = wired(switch("b", 3), switch("a", 2))

    assert (ref("b/2"), ref("a/1"), ref("a/2")) == in_plan_order(plan, {ref("a/2"), ref("b/2"), ref("a/1")})
    assert () == in_plan_order(plan, ())


def test_a_plan_whose_modules_are_all_known_leaves_none_unnamed() -> None:
    things = (switch("a", {"1": cage()}), switch("b", {"1": cage()}), cable("F1", "a/1", "b/1", "OM4"))
    plan = wired(*things)
    assert () == unnamed(plan, choices(plan, topology_of(*things)))


@pytest.mark.parametrize("category", ["twinax", "active-twinax", "active-optical", "6A", "unknown"])
def test_cable_that_is_no_fibre_asks_for_no_module(category: Category) -> None:
    assert Choices({}, ()) == made(cage(), cage(), category)


def test_ports_that_name_their_modules_are_left_alone() -> None:
    assert Choices({}, ()) == made(cage(module="10GBASE-SR"), cage(module="10GBASE-LR"))


@pytest.mark.parametrize(
    ("port", "phy", "expected"),
    [
        (cage(10), "10GBASE-SR", True),
        (cage(10), "1000BASE-SX", False),
        (Port("sfp+"), "25GBASE-SR", False),
        (Port("qsfp+"), "10GBASE-SR", False),
        (Port("sfp28"), "10GBASE-SR", True),
        (Port(rates=rates(10)), "10GBASE-SR", True),
        (jack(10), "10GBASE-SR", False),
    ],
)
def test_a_cage_takes_modules_of_its_form_and_its_rates(port: Port, phy: str, expected: bool) -> None:
    assert expected is takes(port, phy)


def test_usual_modules_take_two_fibres_and_are_told_apart_by_rate_and_fibre() -> None:
    assert {("lc", 2)} == {(optics()[phy].connector, optics()[phy].fibres) for phy in USUAL}
    assert len(USUAL) == len({(phys()[phy].rate_bit_per_s, phys()[phy].medium) for phy in USUAL})
    assert G * 40 == max(phys()[phy].rate_bit_per_s for phy in USUAL)
