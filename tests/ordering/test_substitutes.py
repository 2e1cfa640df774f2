"""Where the bill has something else than the plan or its stock says."""

from __future__ import annotations

import pytest
from rooms import plan_of, room

from netaudit.model.plan import StockItem
from netaudit.ordering.made_up import made_up
from netaudit.ordering.shopping import shopping
from netaudit.ordering.stock import Stock
from netaudit.ordering.substitutes import substitutes


def told(text: str, *items: StockItem) -> tuple[str, ...]:
    plan = plan_of(text)
    return substitutes(plan, shopping(plan), Stock(items, (), "metric"))


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
        row.goods.length_m for row in made_up(plan, shopping(plan).made_up, Stock(items, (), "metric"), 0.1)
    }


def test_what_the_stock_does_not_list_is_no_substitute() -> None:
    assert () == told(room(), StockItem("fibre cord", "OM4", length_m=1.0))
