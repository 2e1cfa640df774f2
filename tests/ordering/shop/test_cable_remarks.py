"""What to know or to ask before cables with their plugs on are ordered."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import cable, cage, device, rates, seat, switch, vault, wired

from netaudit.model.plan import Plan, Port
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.module_choice import choices
from netaudit.ordering.shop.cable_remarks import cable_remarks
from netaudit.ordering.shop.fitting import fitted
from netaudit.ordering.shop.shopping import shopping


def told(plan: Plan) -> tuple[str, ...]:
    topology = build_topology(plan)
    return cable_remarks(fitted(plan, topology, choices(plan, topology).chosen), shopping(plan).made_up)


def remarks(*things: Any, **fields: Any) -> tuple[str, ...]:
    return told(wired(*things, **fields))


def asked(word: str, *things: Any, **fields: Any) -> list[str]:
    """The remarks that hold a word."""
    return [remark for remark in remarks(*things, **fields) if word in remark]


def wide(phy: str | None = None) -> Port:
    return Port("qsfp+", rates(40), module=phy)


def tray(name: str, connector: Any = "lc") -> Any:
    return device(name, "panel", {str(n): Port(connector) for n in range(1, 5)})


def two(near: Port, far: Port, category: Any = "OM4", **fields: Any) -> tuple[Any, ...]:
    """Two switches and one cable between them."""
    return switch("a", {"1": near}), switch("b", {"1": far}), cable("F1", "a/1", "b/1", category, **fields)


def test_a_plan_of_short_cords_is_told_nothing() -> None:
    assert () == remarks(seat("cut-1"), vault(), cable("C1", "cut-1/wire", "vault/fast"))
    assert () == told(Plan(file="room.yaml"))


# Plugs


@pytest.mark.parametrize(
    ("far", "sentence"),
    [
        (wide(), "Module first: order F1 only when the modules for a/1 and b/1 are named, which decide on plugs and fibres."),
        (Port("mpo"), "Module first: order F1 only when the module for a/1 is named, which decides on plugs and fibres."),
    ],
)  # fmt: skip
def test_a_cord_into_a_wide_cage_whose_module_is_open_waits_for_it(far: Port, sentence: str) -> None:
    assert sentence == remarks(*two(wide(), far))[0]


def test_a_cord_whose_module_follows_from_the_far_end_does_not_wait() -> None:
    assert [] == asked("Module first", *two(wide(), wide("40GBASE-SR4")))
    assert [] == asked("Module first", *two(wide(), wide(), owned=True))


@pytest.mark.parametrize(("category", "near"), [("OM4", Port("lc")), ("twinax", cage())])
def test_a_cord_into_a_port_of_unknown_connector_is_told_to_have_no_plugs(category: Any, near: Port) -> None:
    assert "F1 is on the bill without plugs: the plan names none that goes into b/1." in remarks(
        *two(near, Port(), category)
    )


def test_cords_without_plugs_are_told_together() -> None:
    a, b = switch("a", {"1": Port("lc"), "2": Port("lc")}), switch("b", {"1": Port(), "2": Port()})
    lines = (cable("F1", "a/1", "b/1", "OM4"), cable("F2", "a/2", "b/2", "OM4"), cable("C1", "a/1", "b/1", "usb"))
    assert "F1 and F2 are on the bill without plugs: the plan names none that goes into b/1 and b/2." in remarks(
        a, b, *lines
    )


# Fibres


@pytest.mark.parametrize(
    ("phy", "fibres", "used"),
    [("40GBASE-SR4", 2, 8), ("40GBASE-SR4", 24, 8), ("100GBASE-SR10", 12, 20), ("10GBASE-SR", 1, 2)],
)
def test_fibres_of_the_plan_that_do_not_serve_the_modules_are_told(phy: str, fibres: int, used: int) -> None:
    """IEEE 802.3 clauses 52, 86 and 95: two, eight and twenty fibres; MPO connectors of 12 and 24 from memory."""
    counted = "1 fibre" if fibres == 1 else f"{fibres} fibres"
    assert (
        f"F1 has {counted} by the plan, and the modules on its way use {used}: settle which is right before ordering; "
        "the bill has what the plan says."
    ) in remarks(*two(Port("qsfp28", module=phy), Port("qsfp28", module=phy), fibres=fibres))


@pytest.mark.parametrize(
    ("phy", "fibres"),
    [("40GBASE-SR4", 8), ("40GBASE-SR4", 12), ("100GBASE-SR10", 24), ("10GBASE-SR", 2), ("10GBASE-BR10-D", 2)],
)
def test_fibres_of_the_plan_that_serve_the_modules_are_right(phy: str, fibres: int) -> None:
    assert [] == asked("settle", *two(Port("qsfp28", module=phy), Port("qsfp28"), fibres=fibres))


@pytest.mark.parametrize(
    ("tails", "told_free"), [(1, []), (4, []), (3, ["1 of them stays free; cap it"]), (2, ["2 of them stay free; cap them"])]
)  # fmt: skip
def test_tails_that_the_plan_leaves_free_are_told(tails: int, told_free: list[str]) -> None:
    far = switch("b", {str(n): cage(10) for n in range(1, 5)})
    line = cable("D1", "a/1", [f"b/{n}" for n in range(1, tails + 1)], "twinax", 1.0)
    assert [f"D1 is sold with 4 tails: {free}." for free in told_free] == asked(
        "tails", switch("a", {"1": wide()}), far, line
    )


def test_duplex_cords_are_asked_for_crossed() -> None:
    """A-to-B is the usual duplex cord of ANSI/TIA-568.3, from memory."""
    assert (
        "Ask for F1 crossed, A to B, as duplex cords usually are: what one end sends, the other has to receive.",
    ) == remarks(*two(cage(), cage()))
    assert [] == asked("crossed", *two(cage(module="10GBASE-BR10-D"), cage(), "OS2"))
    assert [] == asked("crossed", *two(Port("lc"), Port("lc"), fibres=12))
    assert [] == asked("crossed", *two(wide("40GBASE-SR4"), wide()))


def test_parallel_cords_are_asked_for_their_polarity_and_their_pins() -> None:
    """Type B crosses all fibres end to end: ANSI/TIA-568.3, from memory; modules have pins: common practice."""
    assert (
        "Ask which polarity type F1 needs (B for a direct link of two parallel modules), and whether with sockets or "
        "pins: modules have pins, so a cord into one has none.",
    ) == remarks(*two(wide("40GBASE-SR4"), wide()))
    both = (tray("t", "mpo"), tray("u", "mpo"), cable("F1", "t/1", "u/1", "OM4"), cable("F2", "t/2", "u/2", "OM4"))
    assert ["Ask which polarity type F1 and F2 need"] == [said[:38] for said in asked("polarity", *both)]


def test_single_mode_is_asked_for_its_polish() -> None:
    assert [
        "Ask for F1 whether the ports are polished UPC or APC, which never go together: both ends alike, as the ports "
        "have it."
    ] == asked("APC", *two(cage(), cage(), "OS2"))
    assert [] == asked("APC", *two(cage(), cage(), "OM4"))


def test_fibre_between_passive_ports_may_be_spliced() -> None:
    lines = (cable("F1", "t/1", "u/1", "OM4"), cable("F2", "t/2", "u/2", "OM4"))
    assert [
        "F1 lies between passive ports: ask who lays it whether it comes pre-terminated, or is spliced to pigtails, "
        "which are not on the bill."
    ] == asked("pigtails", tray("t"), tray("u"), lines[0])
    assert [
        "F1 and F2 lie between passive ports: ask who lays them whether they come pre-terminated, or are spliced to "
        "pigtails, which are not on the bill."
    ] == asked("pigtails", tray("t"), tray("u"), *lines)
    assert [] == asked("pigtails", tray("t"), switch("b", {"1": cage()}), cable("F1", "t/1", "b/1", "OM4"))
