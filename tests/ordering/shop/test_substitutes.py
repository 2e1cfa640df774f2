"""Where the bill has something else than the plan or its stock says."""

from __future__ import annotations

import pytest
from rooms import plan_of, room

from netaudit.model.plan import StockItem
from netaudit.network.topology import build_topology
from netaudit.ordering.shop.fitting import fitted
from netaudit.ordering.shop.made_up import made_up
from netaudit.ordering.shop.shopping import shopping
from netaudit.ordering.shop.stock import Stock
from netaudit.ordering.shop.substitutes import substitutes


def told(text: str, *items: StockItem) -> tuple[str, ...]:
    plan = plan_of(text)
    return substitutes(fitted(plan, build_topology(plan), {}), shopping(plan), Stock(items, (), "metric"))


def test_a_plan_whose_every_cable_can_be_had_is_told_nothing() -> None:
    assert () == told(room())


@pytest.mark.parametrize(
    "cable", ["from: plate/2, to: panel/2, length: 20 m", "from: core/3, to: panel/3, length: 2 m, cord: 26 AWG"]
)
def test_clad_aluminium_is_bought_as_copper_and_told(cable: str) -> None:
    """ANSI/TIA-568-C.2 section 5.3: conductors of solid copper, whether or not they are stranded."""
    text = room(cables=f"  W02: {{{cable}, category: 6A, material: aluminium-clad}}")

    assert ("W02: no standard allows copper-clad aluminium; the bill has solid copper.",) == told(text)


def test_clad_aluminium_that_is_there_already_is_not_bought_and_not_told() -> None:
    assert () == told(room(walls=", material: aluminium-clad"))


def test_a_length_that_the_stock_lacks_is_told_with_the_one_in_the_bill() -> None:
    text = room(cables="  C02: {from: core/3, to: panel/3, category: 6A, length: 18 m, cord: 26 AWG}")
    items = (StockItem("cord", "6A", length_m=3.0),)
    plan = plan_of(text)

    assert (
        "C02: the stock has no cord 6A that is long enough; the bill has one of 20 m, as they are sold elsewhere.",
    ) == told(text, *items)
    assert 20.0 in {
        row.goods.length_m
        for row in made_up(
            fitted(plan, build_topology(plan), {}), shopping(plan).made_up, Stock(items, (), "metric"), 0.1
        )
    }


def test_what_the_stock_does_not_list_is_no_substitute() -> None:
    assert () == told(room(), StockItem("fibre cord", "OM4", length_m=1.0))


def runs(category: str, names: str = "W02", more: str = "") -> str:
    """The room with runs of a category between plate and panel, not said to be screened but by `more`."""
    lines = (
        f"  {name}: {{from: plate/{number}, to: panel/{number}, category: {category}, length: 20 m{more}}}"
        for number, name in enumerate(names.split(), 2)
    )
    return room(cables="\n".join(lines))


def test_a_screen_that_the_category_has_by_construction_is_told_where_the_plan_does_not_say_it() -> None:
    """IEC 60603-7-81: shielded connectors to 2000 MHz, which mate with plain RJ45."""
    assert (
        "W02 and W03: category 8.1 has a screen by construction (IEC 60603-7-81, with ISO/IEC 11801-1 class I); the bill "
        "has it screened.",
    ) == told(runs("8.1", "W02 W03"))
    assert () == told(runs("8.1", more=", screened: true"))


@pytest.mark.parametrize(
    ("category", "standards", "rj45_class"),
    [
        ("7", "IEC 60603-7-7 or IEC 61076-3-104", "EA"),
        ("7A", "IEC 60603-7-71 or IEC 61076-3-104", "EA"),
        ("8.2", "IEC 60603-7-82 or IEC 61076-3-104", "I"),
    ],
)
def test_connectors_that_are_no_plain_rj45_are_asked_for(category: str, standards: str, rj45_class: str) -> None:
    """ISO/IEC 11801-1: a channel is of the class of its least component; from memory."""
    text = runs(category, more=", screened: true")

    assert (
        f"W02: connectors of category {category} are no plain RJ45 ({standards}): ask which ones panels and outlets take; "
        f"with RJ45 it counts as class {rj45_class} at most.",
    ) == told(text)
    (_, both) = told(runs(category, "W02 W03"))
    assert both.endswith(f"with RJ45 they count as class {rj45_class} at most.")


@pytest.mark.parametrize(
    ("needed", "own_m", "sentences"),
    [("1 m", 3.01, 1), ("1 m", 3.0, 0), ("0.5 m", 2.5, 0), ("0.5 m", 2.6, 1), ("2 m", 6.0, 0), ("2 m", 6.1, 1)],
)
def test_a_cord_of_the_stock_is_much_too_long_from_three_times_and_two_metres_more(
    needed: str, own_m: float, sentences: int
) -> None:
    text = room(cables=f"  C02: {{from: core/3, to: panel/3, category: 6, length: {needed}, cord: 26 AWG}}")
    found = told(text, StockItem("cord", "6", length_m=own_m), StockItem("cord", "6", length_m=20.0))

    assert sentences == sum(sentence.startswith("C02: the least cord 6 of the stock") for sentence in found)


def test_cords_that_are_much_too_long_are_told_once_with_the_longest_need() -> None:
    text = room(cables="  C02: {from: core/3, to: panel/3, category: 6A, length: 2 m, cord: 26 AWG}")

    assert (
        "C01, P01 and C02: the least cord 6A of the stock that is long enough has 30 ft (9.14 m), where 3 m are needed at "
        "most: add shorter ones to `stock` if they can be had.",
    ) == told(text, StockItem("cord", "6A", length_m=9.144))
    assert () == told(room(), StockItem("fibre cord", "OM4", length_m=90.0))
