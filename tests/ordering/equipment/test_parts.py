"""Parts: jacks and plugs for bulk cable, and every housing and machine that is still to be bought."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import cable, cage, device, jack, panel, seat, switch, vault, wired

from netaudit.model.goods import Goods, Item
from netaudit.model.plan import Bus, Plan, Port, Price, StockItem
from netaudit.ordering.equipment.parts import new_adapters, new_devices, parts
from netaudit.ordering.shop.shopping import shopping
from netaudit.ordering.shop.stock import Stock

NO_STOCK = Stock((), (), "metric")


def bought(*things: Any, stock: Stock = NO_STOCK, spare: float = 0.1) -> tuple[Item, ...]:
    plan = wired(*things)
    return parts(plan, shopping(plan).bulk, stock, spare)


def named(*things: Any) -> dict[str, tuple[str, ...]]:
    """What is bought, by name, with what it is for."""
    return {item.goods.name: item.serves for item in bought(*things)}


def plate(name: str = "plate", port: Port = Port("rj45"), **fields: Any) -> Any:  # noqa: B008 - a port is a frozen value
    return device(name, "outlet", {"1": port, "2": port}, **fields)


def there(name: str) -> Any:
    """A panel that nobody has to buy."""
    return device(name, "panel", {str(n): Port("rj45") for n in range(1, 5)}, owned=True)


def test_each_end_of_a_bulk_run_gets_a_jack_of_its_category_and_screen() -> None:
    rows = bought(plate(owned=True), there("panel"), cable("W1", "plate/1", "panel/1", "6A", screened=True))
    assert [Item(Goods("jack", category="6A", screened=True), 2, 1, ("plate/1", "panel/1"))] == list(rows)


def test_a_port_that_states_its_category_and_screen_gets_a_jack_of_these() -> None:
    outlet = plate(port=Port("rj45", category="6A", screened=True), owned=True)
    rows = bought(outlet, there("panel"), cable("W1", "plate/1", "panel/1", "6"))
    assert [Goods("jack", category="6A", screened=True), Goods("jack", category="6", screened=False)] == [
        row.goods for row in rows
    ]


def test_a_second_bulk_run_at_a_port_ends_in_a_plug_for_solid_conductors() -> None:
    rows = bought(there("a"), there("b"), there("c"), cable("W1", "a/1", "b/1"), cable("W2", "b/1", "c/1"))
    assert {"jack": ("a/1", "b/1", "c/1"), "plug for solid conductors": ("b/1",)} == {
        row.goods.name: row.serves for row in rows
    }
    assert Goods("plug", "for solid conductors", "6A", False) == rows[1].goods


def test_where_an_installed_cable_ends_the_jack_is_taken_and_a_new_run_ends_in_a_plug() -> None:
    things = (there("a"), there("b"), there("c"), cable("W1", "a/1", "b/1", installed=True), cable("W2", "b/1", "c/1"))
    assert {"jack": ("c/1",), "plug for solid conductors": ("b/1",)} == named(*things)


def test_a_port_that_is_owned_has_its_jack() -> None:
    assert {"jack": ("panel/1",)} == named(
        plate(port=Port("rj45", owned=True), owned=True), there("panel"), cable("W1", "plate/1", "panel/1")
    )


def test_cords_made_up_cables_and_runs_that_are_there_get_neither_jack_nor_plug() -> None:
    things = (
        seat("cut-1"), there("a"), there("b"), switch("core"),
        cable("C1", "cut-1/wire", "a/1"), cable("W1", "a/1", "b/1", installed=True), cable("C2", "b/1", "core/1"),
        cable("W2", "a/2", "b/2", owned=True), cable("C3", "a/3", "b/3", cord_awg=26),
    )  # fmt: skip
    assert () == bought(*things)


def test_jacks_and_plugs_have_spares_and_housings_have_none() -> None:
    lines = [cable(f"W{n}", f"plate-{n}/1", f"panel/{n}") for n in range(1, 7)]
    rows = bought(*(plate(f"plate-{n}") for n in range(1, 7)), panel("panel", 6), *lines)
    assert [("jack", 12, 2), ("plate", 6, 0), ("panel", 1, 0)] == [
        (row.goods.what, row.quantity, row.spares) for row in rows
    ]


@st.composite
def wired_panels(draw: st.DrawFn) -> Plan:
    """Three panels, some of whose jacks are there, and cables of every kind between them, at most two at a port."""
    owned = st.sampled_from((None, True, False))
    panels = [
        device(name, "panel", {str(n): Port("rj45", owned=draw(owned)) for n in range(3)}, owned=True) for name in "abc"
    ]
    ends = draw(st.permutations([f"{name}/{n}" for name in "abc" for n in range(3)] * 2))
    pairs = [(near, far) for near, far in zip(ends[::2], ends[1::2], strict=True) if near != far]
    lines = [
        cable(f"W{n}", near, far, installed=draw(st.booleans()), cord_awg=draw(st.sampled_from((None, None, 26))))
        for n, (near, far) in enumerate(pairs)
    ]
    return wired(*panels, *lines)


@settings(max_examples=100, deadline=None)
@given(wired_panels())
def test_every_end_of_a_bulk_run_has_a_jack_or_a_plug_or_a_jack_that_is_there(plan: Plan) -> None:
    runs = shopping(plan).bulk
    rows = parts(plan, runs, NO_STOCK, 0.1)
    ends = Counter(str(end) for line in runs for end in line.ends)
    made = Counter(port for row in rows for port in row.serves)
    jacks = Counter(port for row in rows if row.goods.what == "jack" for port in row.serves)
    owned = {str(end) for line in runs for end in line.ends if plan.devices[end.device].ports[end.port].owned}
    installed = {str(end) for line in plan.cables.values() if line.installed for end in line.ends}
    assert made <= ends
    assert dict.fromkeys(owned - installed, 1) == dict(ends - made)
    assert dict.fromkeys(ends.keys() - owned - installed, 1) == dict(jacks)


@pytest.mark.parametrize(
    ("owned", "installed", "expected"),
    [(None, False, True), (None, True, False), (False, False, True), (False, True, True), (True, False, False)],
)
def test_a_panel_is_bought_unless_it_is_owned_or_an_installed_cable_ends_there(
    owned: bool | None, installed: bool, expected: bool
) -> None:
    far = there("far")
    rows = bought(plate(owned=owned), far, cable("W1", "plate/1", "far/1", installed=installed))
    assert expected is (Goods("plate", "2 x rj45") in [row.goods for row in rows])


@pytest.mark.parametrize(("owned", "expected"), [(None, True), (False, True), (True, False)])
def test_an_adapter_is_bought_unless_it_is_owned(owned: bool | None, expected: bool) -> None:
    rows = named(device("dock", "adapter", {"in": Port("usb-c"), "out": jack()}, owned=owned))
    assert expected is ({"adapter 1 x usb-c + 1 x rj45 10 Gb/s": ("dock",)} == rows)


@pytest.mark.parametrize("role", ["switch", "router", "access-point", "storage", "station", "ups", "other"])
@pytest.mark.parametrize(("owned", "expected"), [(None, {}), (True, {}), (False, {"x": 1})])
def test_any_other_device_is_bought_only_where_the_plan_says_that_it_is_not_owned(
    role: Any, owned: bool | None, expected: dict[str, int]
) -> None:
    rows = bought(device("x", role, {}, owned=owned))
    goods = Goods(role, "x" if role == "other" else None)
    assert [(goods, ("x",))] * len(expected) == [(row.goods, row.serves) for row in rows]


def test_panels_and_plates_have_the_category_and_the_screen_of_their_ports_and_two_kinds_are_two_rows() -> None:
    rows = bought(
        panel("plain", 24, category="6A", screened=False), panel("other", 24, category="6A", screened=False),
        panel("braided", 24, category="6A", screened=True), panel("old", 24, category="5e"), panel("bare", 24),
    )  # fmt: skip
    assert [
        (Goods("panel", "24 x rj45", "6A", screened=False), ("plain", "other")),
        (Goods("panel", "24 x rj45", "6A", screened=True), ("braided",)),
        (Goods("panel", "24 x rj45", "5e"), ("old",)),
        (Goods("panel", "24 x rj45"), ("bare",)),
    ] == [(row.goods, row.serves) for row in rows]
    assert "panel 24 x rj45 6A, screened" == rows[1].goods.text


def test_a_housing_of_mixed_ports_has_no_category_and_no_screen_of_its_own() -> None:
    ports = {"1": Port("rj45", category="6A", screened=True), "2": Port("rj45", category="5e"), "3": Port("lc")}
    assert [Goods("plate", "2 x rj45 + 1 x lc")] == [row.goods for row in bought(device("p", "outlet", ports))]


def test_one_price_for_panels_is_that_of_every_kind() -> None:
    price = Price(Decimal(31), "EUR")
    stock = Stock((StockItem("panel", price=price),), (), "metric")
    rows = bought(panel("a", category="6A", screened=True), panel("b", category="5e"), stock=stock)
    assert [price, price] == [row.price for row in rows]


def test_a_device_of_no_usual_role_is_told_by_its_name() -> None:
    ports = {"1": jack(1)}
    rows = bought(device("door-eye", "other", ports, owned=False), device("clock", "other", ports, owned=False))
    assert ["other door-eye", "other clock"] == [row.goods.name for row in rows]


@pytest.mark.parametrize(
    ("fields", "name"),
    [
        ({}, "ups"),
        ({"watts": 900.0}, "ups 900 W"),
        ({"watts": 600.0, "watts_max": 900.0}, "ups 900 W"),
        ({"watts": 900.0, "ports": {"1": jack(1)}}, "ups 900 W, 1 x rj45 1 Gb/s"),
        ({"ports": {"1": jack(1)}}, "ups 1 x rj45 1 Gb/s"),
    ],
)
def test_a_ups_is_told_by_its_watts_where_they_are_known(fields: dict[str, Any], name: str) -> None:
    fields = {"ports": {}, **fields}
    assert [name] == [row.goods.name for row in bought(device("ups", "ups", owned=False, **fields))]


@pytest.mark.parametrize("category", ["7", "7A", "8.2"])
def test_jacks_and_plugs_are_screened_where_the_cable_is_by_construction(category: Any) -> None:
    lines = (cable("W1", "a/1", "b/1", category), cable("W2", "b/1", "c/1", category))
    rows = bought(there("a"), there("b"), there("c"), *lines)
    assert [("jack", category, True), ("plug", category, True)] == [
        (row.goods.what, row.goods.category, row.goods.screened) for row in rows
    ]


def test_the_internet_is_not_bought() -> None:
    assert () == bought(device("net", "internet", {"line": jack()}, owned=False))


def test_a_device_is_told_by_its_ports_and_equal_ones_share_a_row() -> None:
    ports = {"1": jack(), "2": jack(), "9": cage(25, 10), "x": Port()}
    rows = bought(switch("a", ports, owned=False), switch("b", ports, owned=False), switch("c", 2, owned=False))
    assert [
        ("switch 2 x rj45 10 Gb/s + 1 x sfp+ 25 Gb/s + 1 x port", 2, ("a", "b")),
        ("switch 2 x rj45 10 Gb/s", 1, ("c",)),
    ] == [(row.goods.name, row.quantity, row.serves) for row in rows]


def test_the_price_is_that_of_the_part_by_name() -> None:
    price = Price(Decimal("4.50"), "EUR")
    stock = Stock((StockItem("jack", "6A", price=price),), (), "metric")
    rows = bought(there("a"), there("b"), cable("W1", "a/1", "b/1"), stock=stock)
    assert [price] == [row.price for row in rows]


def test_a_wired_port_that_is_not_owned_on_a_machine_that_is_there_is_a_network_adapter() -> None:
    ports = {"wire": jack(bus=Bus("thunderbolt", 3), owned=False), "house": jack(1), "air": Port("radio", owned=False)}
    store = vault(ports={"fast": cage(10, bus=Bus("pcie", 3, 8), owned=False), "any": Port(owned=False)})
    assert {
        "network adapter rj45 10 Gb/s, for Thunderbolt 3": ("cut-1/wire",),
        "network adapter sfp+ 10 Gb/s, for PCI Express 3 x8": ("vault/fast",),
        "network adapter": ("vault/any",),
    } == named(seat("cut-1", ports), store)


def test_a_network_adapter_has_no_spare() -> None:
    assert [(1, 0)] == [(row.quantity, row.spares) for row in bought(seat("cut-1", {"wire": jack(owned=False)}))]


def test_a_machine_that_is_bought_brings_its_ports_and_a_socket_of_the_computer_is_no_adapter() -> None:
    assert {"station 1 x rj45 10 Gb/s": ("cut-1",)} == named(
        seat("cut-1", {"wire": jack(owned=False)}, owned=False), seat("cut-2", {"usb": Port("usb-c", owned=False)})
    )


def test_what_is_still_to_be_bought_is_told_in_plan_order() -> None:
    plan = wired(
        plate(), there("panel"), switch("core", owned=False), seat("cut-1", {"a": jack(), "b": jack(owned=False)})
    )
    assert ["plate", "core"] == [each.name for each in new_devices(plan)]
    assert ["cut-1/b"] == [str(ref) for ref, _ in new_adapters(plan)]
