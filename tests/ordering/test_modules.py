"""Modules: what goes into the cages, and what to know before ordering them."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import cable, cage, jack, seat, switch, topology_of, vault, wired

from netaudit.model.goods import Goods, Item
from netaudit.model.plan import Plan, Price, StockItem
from netaudit.network.topology import build_topology
from netaudit.ordering.modules import LIGHT, module_remarks, modules
from netaudit.ordering.stock import Stock

NO_STOCK = Stock((), (), "metric")


def bought(*things: Any, stock: Stock = NO_STOCK, spare: float = 0.1) -> tuple[Item, ...]:
    plan = wired(*things)
    return modules(plan, build_topology(plan), stock, spare)


def serves(*things: Any) -> dict[str | None, tuple[str, ...]]:
    """Each module that is bought with the ports it is for."""
    return {item.goods.detail: item.serves for item in bought(*things)}


def remarks(*things: Any) -> tuple[str, ...]:
    return module_remarks(wired(*things), topology_of(*things))


def sfp(phy: str | None = None, **fields: Any) -> Any:
    return cage(module=phy, **fields)


def test_every_port_that_names_a_module_needs_one_and_a_row_is_a_physical_layer() -> None:
    core = switch("core", {"1": sfp("10GBASE-SR"), "2": sfp("10GBASE-LR"), "3": sfp("10GBASE-SR")})
    rows = bought(core)
    assert [("10GBASE-SR", 2, 1, ("core/1", "core/3")), ("10GBASE-LR", 1, 1, ("core/2",))] == [
        (row.goods.detail, row.quantity, row.spares, row.serves) for row in rows
    ]
    assert Goods("module", "10GBASE-SR") == rows[0].goods


def test_spares_are_a_share_rounded_up() -> None:
    core = switch("core", {str(n): sfp("10GBASE-SR") for n in range(11)})
    assert (11, 2) == bought(core)[0][1:3]


def test_an_owned_port_brings_its_module_and_an_owned_device_does_not() -> None:
    core = switch("core", {"1": sfp("10GBASE-SR", owned=True), "2": sfp("10GBASE-SR")}, owned=True)
    assert {"10GBASE-SR": ("core/2",)} == serves(core)


def test_the_price_is_that_of_the_module_by_name() -> None:
    price = Price(Decimal("19.90"), "EUR")
    stock = Stock((StockItem("module 10GBASE-SR", price=price),), (), "metric")
    assert price == bought(switch("core", {"1": sfp("10GBASE-SR")}), stock=stock)[0].price


def test_a_module_for_copper_made_on_to_its_cable_is_not_bought() -> None:
    assert () == bought(switch("core", {"1": sfp("10GSFP+Cu")}))


def test_a_port_that_is_no_cage_takes_no_module_and_it_is_said() -> None:
    core = switch("core", {"1": jack(module="10GBASE-SR")})
    assert () == bought(core)
    assert "core/1 is no cage: the module named there is not ordered." in remarks(core)


links = st.lists(st.sampled_from(["OM3", "OM4", "OS2", "twinax", "active-optical", "active-twinax"]), max_size=6)


@settings(max_examples=40, deadline=None)
@given(links)
def test_a_fibre_between_two_cages_needs_two_modules_and_a_made_up_cable_none(categories: list[Any]) -> None:
    ports = {str(number): cage() for number in range(len(categories))}
    lines = [cable(f"F{n}", f"a/{n}", f"b/{n}", category) for n, category in enumerate(categories)]
    rows = bought(switch("a", ports), switch("b", ports), *lines)
    fibres = [n for n, category in enumerate(categories) if category.startswith("O")]
    assert 2 * len(fibres) == sum(row.quantity for row in rows)
    assert sorted(f"{end}/{n}" for end in "ab" for n in fibres) == sorted(port for row in rows for port in row.serves)


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
        "10GBASE-SR for core/17 and loft/up."
    ) in remarks(*UPLINK)
    assert LIGHT == remarks(*UPLINK)[-1]


def test_a_plan_without_cages_and_fibre_has_no_remark() -> None:
    assert () == remarks(seat("cut-1"), vault(), cable("C1", "cut-1/wire", "vault/fast"))


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
def test_twisted_pair_in_a_bare_cage_is_a_question_and_no_module_is_guessed(ends: list[str], sentence: str) -> None:
    seats = [seat(f"cut-{end}") for end in ends]
    lines = [cable(f"C{end}", f"cut-{end}/wire", f"core/{end}") for end in ends]
    things = (*seats, switch("core", {"9": cage(), "10": cage()}), *lines)
    assert () == bought(*things)
    assert (sentence,) == remarks(*things)


def test_a_cord_between_two_bare_cages_names_both() -> None:
    things = (switch("a", {"1": cage()}), switch("b", {"1": cage()}), cable("C1", "a/1", "b/1"))
    assert ("a/1 and b/1 are cages, and C1 is twisted pair: name the modules, or use other ports.",) == remarks(*things)


def test_what_cannot_be_chosen_is_asked_with_the_reason() -> None:
    far = vault(ports={"fast": cage(owned=True)})
    things = (switch("core", {"9": cage()}), far, cable("F1", "core/9", "vault/fast", "OM4"))
    assert () == bought(*things)
    assert (
        "Name the module for core/9 and vault/fast: vault/fast is owned, and the plan does not say which module sits "
        "in it."
    ) == remarks(*things)[0]


def test_two_halves_of_a_pair_are_told_so_that_nobody_orders_two_alike() -> None:
    things = (
        switch("a", {"1": sfp("10GBASE-BR10-D")}),
        switch("b", {"1": cage()}),
        cable("F1", "a/1", "b/1", "OS2", fibres=1),
    )
    assert {"10GBASE-BR10-D": ("a/1",), "10GBASE-BR10-U": ("b/1",)} == serves(*things)
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


def test_a_module_beside_a_cable_with_ends_of_its_own_is_told_and_ordered() -> None:
    things = (
        switch("a", {"1": sfp("10GBASE-SR")}),
        switch("b", {"1": cage()}),
        cable("D1", "a/1", "b/1", "twinax", 1.0),
    )
    assert {"10GBASE-SR": ("a/1",)} == serves(*things)
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
    assert {"10GBASE-SR": ("{core} %s/<9>",)} == serves(core)
    assert any("{core} %s/<9>" in remark for remark in remarks(core))


def test_a_plan_of_nothing_needs_nothing() -> None:
    plan = Plan(file="room.yaml")
    assert () == modules(plan, build_topology(plan), NO_STOCK, 0.1)
    assert () == module_remarks(plan, build_topology(plan))


def test_the_same_port_is_served_once_however_many_links_it_has() -> None:
    things = (
        switch("a", {"1": cage()}), switch("b", {"1": cage()}), switch("c", {"1": cage()}),
        cable("F1", "a/1", "b/1", "OM4"), cable("F2", "a/1", "c/1", "OM4"),
    )  # fmt: skip
    assert {"10GBASE-SR": ("a/1", "b/1", "c/1")} == serves(*things)
