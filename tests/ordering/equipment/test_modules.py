"""Modules: what goes into the cages."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import cable, cage, jack, seat, switch, vault, wired

from netaudit.model.goods import Goods, Item
from netaudit.model.plan import Plan, Port, Price, StockItem
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.module_choice import choices
from netaudit.ordering.equipment.modules import modules, needed_modules
from netaudit.ordering.shop.stock import Stock

NO_STOCK = Stock((), (), "metric")


def rows_of(plan: Plan, stock: Stock = NO_STOCK, spare: float = 0.1) -> tuple[Item, ...]:
    topology = build_topology(plan)
    return modules(needed_modules(plan, topology, choices(plan, topology).chosen), stock, spare)


def bought(*things: Any, stock: Stock = NO_STOCK) -> tuple[Item, ...]:
    return rows_of(wired(*things), stock)


def serves(*things: Any) -> dict[str | None, tuple[str, ...]]:
    """Each module that is bought with the ports it is for."""
    return {item.goods.detail: item.serves for item in bought(*things)}


def core_and_cables(ports: dict[str, Port], **fields: Any) -> tuple[Any, ...]:
    """A switch, and at each port of it a fibre to a panel from which none goes on."""
    tray = switch("far", {name: Port("lc") for name in ports})
    lines = [cable(f"F{name}", f"core/{name}", f"far/{name}", "OM4") for name in ports]
    return (switch("core", ports, **fields), tray, *lines)


def sfp(phy: str | None = None, **fields: Any) -> Port:
    return cage(module=phy, **fields)


def test_every_port_that_names_a_module_needs_one_and_a_row_is_a_physical_layer() -> None:
    rows = bought(*core_and_cables({"1": sfp("10GBASE-SR"), "2": sfp("10GBASE-LR"), "3": sfp("10GBASE-SR")}))
    assert [("10GBASE-SR", 2, 1, ("core/1", "core/3")), ("10GBASE-LR", 1, 1, ("core/2",))] == [
        (row.goods.detail, row.quantity, row.spares, row.serves) for row in rows
    ]
    assert Goods("module", "10GBASE-SR") == rows[0].goods


def test_a_range_of_cages_that_names_a_module_needs_it_only_where_a_cable_ends() -> None:
    things = core_and_cables({"9": sfp("10GBASE-SR")})
    core = switch("core", {str(n): sfp("10GBASE-SR") for n in range(9, 13)})
    assert {"10GBASE-SR": ("core/9",)} == serves(core, *things[1:])
    assert () == bought(core)


@pytest.mark.parametrize("fields", [{"installed": True}, {"owned": True}, {"category": "unknown"}])
def test_a_cable_that_is_there_or_not_yet_known_needs_its_modules_too(fields: dict[str, Any]) -> None:
    line = cable("F1", "a/1", "b/1", "OM4")._replace(**fields)
    things = (switch("a", {"1": sfp("10GBASE-SR")}), switch("b", {"1": sfp("10GBASE-SR")}), line)
    assert {"10GBASE-SR": ("a/1", "b/1")} == serves(*things)


def test_spares_are_a_share_rounded_up() -> None:
    rows = bought(*core_and_cables({str(n): sfp("10GBASE-SR") for n in range(11)}))
    assert (11, 2) == rows[0][1:3]


def test_an_owned_port_brings_its_module_and_an_owned_device_does_not() -> None:
    ports = {"1": sfp("10GBASE-SR", owned=True), "2": sfp("10GBASE-SR")}
    assert {"10GBASE-SR": ("core/2",)} == serves(*core_and_cables(ports, owned=True))


def test_the_price_is_that_of_the_module_by_name() -> None:
    price = Price(Decimal("19.90"), "EUR")
    stock = Stock((StockItem("module 10GBASE-SR", price=price),), (), "metric")
    assert price == bought(*core_and_cables({"1": sfp("10GBASE-SR")}), stock=stock)[0].price


@pytest.mark.parametrize("port", [sfp("10GSFP+Cu"), jack(module="10GBASE-SR")], ids=["made on", "no cage"])
def test_a_module_that_comes_with_its_cable_or_that_nothing_takes_is_not_bought(port: Port) -> None:
    assert () == bought(*core_and_cables({"1": port}))


def test_a_port_of_unknown_connector_that_names_a_module_needs_it() -> None:
    assert {"10GBASE-SR": ("core/1",)} == serves(*core_and_cables({"1": Port(module="10GBASE-SR")}))


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


def test_a_module_for_twisted_pair_is_never_guessed() -> None:
    assert () == bought(seat("cut-1"), switch("core", {"9": cage()}), cable("C9", "cut-1/wire", "core/9"))


def test_what_is_asked_about_is_not_bought() -> None:
    far = vault(ports={"fast": cage(owned=True)})
    assert () == bought(switch("core", {"9": cage()}), far, cable("F1", "core/9", "vault/fast", "OM4"))


def test_the_two_halves_of_a_pair_are_two_rows() -> None:
    things = (
        switch("a", {"1": sfp("10GBASE-BR10-D")}),
        switch("b", {"1": cage()}),
        cable("F1", "a/1", "b/1", "OS2", fibres=1),
    )
    assert {"10GBASE-BR10-D": ("a/1",), "10GBASE-BR10-U": ("b/1",)} == serves(*things)


def test_names_are_told_as_they_are_written() -> None:
    things = (switch("{core} %s", {"<9>": sfp("10GBASE-SR")}), switch("b", {"1": sfp("10GBASE-SR", owned=True)}))
    assert {"10GBASE-SR": ("{core} %s/<9>",)} == serves(*things, cable("F1", "{core} %s/<9>", "b/1", "OM4"))


def test_a_plan_of_nothing_needs_nothing() -> None:
    assert () == rows_of(Plan(file="room.yaml"))


def test_the_same_port_is_served_once_however_many_links_it_has() -> None:
    things = (
        switch("a", {"1": cage()}), switch("b", {"1": cage()}), switch("c", {"1": cage()}),
        cable("F1", "a/1", "b/1", "OM4"), cable("F2", "a/1", "c/1", "OM4"),
    )  # fmt: skip
    assert {"10GBASE-SR": ("a/1", "b/1", "c/1")} == serves(*things)
