"""The whole bill: nothing forgotten, nothing twice, and every part speaks of the same plan."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from math import ceil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from strategies import plans

import netaudit
from netaudit.errors import InputError
from netaudit.model.bill import Bill
from netaudit.model.plan import Plan, Price, StockItem
from netaudit.ordering.bill import bill
from netaudit.ordering.request import Request

TOPOLOGIES = Path(__file__).parents[2] / "topologies"
PLANS = sorted(TOPOLOGIES.glob("*.yaml"))


def plan_named(stem: str) -> Plan:
    """An example plan."""
    return netaudit.load(TOPOLOGIES / f"{stem}.yaml")


def places(made: Bill) -> Counter[str]:
    """How often each cable is bought, cut, or told as not on the bill."""
    there = {*made.installed, *made.owned}
    return Counter(
        (
            *(name for item in made.buy for name in item.serves),
            *(cut.cable for row in made.bulk for cut in row.cuts),
            *(name for row in made.bulk for name in (*row.unmeasured, *row.too_long)),
            *there,
            *(name for name in made.identify if name not in there),
        )
    )


@pytest.mark.parametrize("file", PLANS, ids=lambda file: file.stem)
def test_every_cable_of_every_example_is_on_the_bill_once(file: Path) -> None:
    plan = netaudit.load(file)

    assert dict.fromkeys(plan.cables, 1) == dict(places(bill(plan)))


@given(plan=plans())
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_cable_of_any_plan_is_on_the_bill_once(plan: Plan) -> None:
    plain = replace(plan, cables={name: cable._replace(label=None) for name, cable in plan.cables.items()})
    made = bill(plain, Request(limit_s=1))

    assert dict.fromkeys(plan.cables, 1) == dict(places(made))
    assert all(item.spares >= 1 for item in made.buy)
    assert all(box.left_m >= 0 for row in made.bulk for box in row.boxes)


def test_the_boathouse_buys_what_its_rows_say() -> None:
    made = bill(plan_named("boathouse"))
    rows = [
        (item.goods.what, item.goods.category, item.goods.length_m, item.quantity, item.serves) for item in made.buy
    ]

    assert [
        ("cord", "6A", 5.0, 2, ("C01", "C02")),
        ("fibre cord", "OM4", 30.0, 1, ("F01",)),
        ("cord", "6A", 3.0, 5, ("C03", "C05", "C07", "C09", "C11")),
        ("cord", "6A", 1.0, 5, ("C04", "C08", "C10", "C12", "C14")),
        ("cord", "6A", 2.0, 2, ("C06", "C13")),
        ("twinax", "twinax", 1.0, 2, ("D01", "D02")),
        ("cord", "5e", 1.0, 2, ("C15", "C16")),
        ("cord", "5e", 15.0, 1, ("C17",)),
        ("cord", "5e", 2.0, 1, ("C18",)),
    ] == rows
    assert (("W06",), ()) == (made.identify, made.measure)
    assert tuple(f"W0{number}" for number in range(1, 8)) == made.installed
    assert [("module 10GBASE-SR", 2, ("core/17", "loft-switch/up"))] == [
        (item.goods.name, item.quantity, item.serves) for item in made.modules
    ]


def test_the_boathouse_without_a_single_length_asks_for_each_and_still_counts() -> None:
    plan = plan_named("boathouse")
    bare = replace(plan, cables={name: cable._replace(length_m=None) for name, cable in plan.cables.items()})
    made, measured = bill(bare), bill(plan)
    worked_out = {run.cable for run in made.lengths}

    assert set(plan.cables) == {*made.measure, *worked_out}
    assert {"D01", "D02", "C06", "C16"} <= worked_out
    assert sum(item.quantity for item in measured.buy) == sum(item.quantity for item in made.buy)


def test_a_length_from_the_room_is_used_and_told() -> None:
    made = bill(plan_named("new-wing"))
    (boxes,) = made.bulk

    assert {"W01", "W02", "W03", "W04", "W05", "W06"} == {cut.cable for cut in boxes.cuts}
    assert {"W01", "C02", "F01", "D01"} <= {run.cable for run in made.lengths}
    assert () == made.measure


def test_a_label_says_the_length_that_is_bought() -> None:
    texts = [label.text for label in bill(plan_named("new-wing")).labels if label.cable == "C05"]

    assert ["C05 desk-3/wire > south-plate/1 6A 5 m", "C05 south-plate/1 > desk-3/wire 6A 5 m"] == texts


def test_a_run_that_is_still_to_be_cut_carries_no_length_that_was_worked_out() -> None:
    plan = plan_named("new-wing")
    worked_out = {run.cable for run in bill(plan).lengths}
    measured = replace(plan, cables={**plan.cables, "W01": plan.cables["W01"]._replace(length_m=31.0)})
    texts = {label.cable: label.text for label in bill(measured).labels if label.end == "from"}

    assert {"W01", "W02", "D01"} <= worked_out
    assert texts["W01"].endswith(" 6A 31 m")
    assert texts["W02"].endswith(" 6A")
    assert texts["D01"].endswith(" m")


def test_the_series_follows_the_regime_unless_somebody_chooses() -> None:
    plan = plan_named("boathouse")
    iso, tia = bill(plan), bill(replace(plan, regime="tia"))
    chosen = bill(plan, Request(series="imperial"))

    assert 3.0 in {item.goods.length_m for item in iso.buy}
    assert 3.048 in {item.goods.length_m for item in tia.buy}
    assert tia.buy == chosen.buy


def test_prices_beside_the_plan_go_before_those_in_it() -> None:
    plan = plan_named("new-wing")
    dearer = StockItem("module 10GBASE-SR", price=Price(Decimal(99), "EUR"))
    (before,), (after,) = bill(plan).modules, bill(plan, Request(prices=(dearer,))).modules

    assert [Price(Decimal("24.00"), "EUR"), Price(Decimal(99), "EUR")] == [before.price, after.price]


def test_totals_are_what_the_priced_rows_come_to() -> None:
    made = bill(plan_named("new-wing"))
    costs = [item.cost for item in (*made.buy, *made.modules, *made.parts)]
    boxes = [box.price for row in made.bulk for box in row.boxes]
    paid = sum(price.amount for price in (*costs, *boxes) if price is not None)

    assert [("EUR", paid)] == [(total.currency, total.amount) for total in made.totals]
    assert 2 == made.unpriced == sum(cost is None for cost in costs)


@pytest.mark.parametrize("spare", [0.0, 0.1, 0.3, 0.99])
def test_spares_are_the_share_of_each_row_rounded_up_and_one_at_least(spare: float) -> None:
    made = bill(plan_named("boathouse"), Request(spare=spare))

    assert [max(1, ceil(item.quantity * Fraction(str(spare)))) for item in made.buy] == [
        item.spares for item in made.buy
    ]


def test_a_wrong_pattern_of_a_label_is_told_with_its_line() -> None:
    text = (
        (TOPOLOGIES / "three-seats.yaml")
        .read_text(encoding="utf-8")
        .replace("length: 7 m", "length: 7 m, label: '{nope}'")
    )
    with pytest.raises(InputError) as told:
        bill(netaudit.loads(text, "three.yaml"))
    (problem,) = told.value.problems

    assert ("three.yaml", ("cables", "C02", "label")) == (problem.file, problem.path)
    assert problem.line is not None
    assert "C02:" in text.splitlines()[problem.line - 1]


SKETCH = """\
netaudit: 1
devices:
  core: {role: switch, ports: {1-2: {connector: qsfp+, rates: [40G]}, 3: {connector: qsfp+, module: 40GBASE-SR4}}}
  loft: {role: switch, ports: {1-2: {connector: qsfp+, rates: [40G]}, 3: {connector: qsfp+, rates: [40G]}}}
cables:
  F1: {from: core/1, to: loft/1, category: OM4, length: 20 m}
  F3: {from: core/3, to: loft/3, category: OM4, length: 20 m}
"""


def test_cages_without_a_module_leave_the_bill_open_and_a_chosen_module_decides_on_the_plugs() -> None:
    made = bill(netaudit.loads(SKETCH, "sketch.yaml"))

    assert ("core/1", "loft/1") == tuple(map(str, made.unnamed))
    assert not made.complete
    assert [("fibre cord", None), ("fibre cord 8 fibres", "mpo - mpo")] == [
        (item.goods.name, item.goods.ends) for item in made.buy
    ]
    assert [("module 40GBASE-SR4", ("core/3", "loft/3"))] == [(item.goods.name, item.serves) for item in made.modules]
    assert any(remark.startswith("Module first: order F1 ") for remark in made.remarks)


def test_what_no_bill_can_hold_is_told_last_unless_nothing_is_bought() -> None:
    plan = plan_named("new-wing")
    bare = replace(plan, devices={}, cables={})

    assert bill(plan).remarks[-1].startswith("Never on this bill: ")
    assert () == bill(bare).remarks


def test_a_search_that_is_stopped_is_told_and_loses_nothing() -> None:
    made = bill(plan_named("new-wing"), Request(stop=lambda: True))

    assert 6 == sum(len(row.cuts) for row in made.bulk)
