"""Which cables are bought made up, which are cut from a box, and which are there or still open."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings
from rooms import plan_of, room
from strategies import plans

from netaudit.model.plan import COPPER_CATEGORIES, Plan
from netaudit.ordering.shop.shopping import Shopping, shopping


def sorted_wall(keys: str) -> Shopping:
    """The room sorted, with one more run between plate and panel."""
    return shopping(plan_of(room(cables=f"  W02: {{from: plate/2, to: panel/2{keys}}}")))


def where(found: Shopping, name: str) -> list[str]:
    """The lists that a cable stands in."""
    return [
        field
        for field, members in found._asdict().items()
        if name in [getattr(member, "name", member) for member in members]
    ]


@pytest.mark.parametrize(
    ("keys", "lists"),
    [
        (", category: 6A, length: 20 m", ["bulk"]),
        (", category: 6A", ["bulk", "measure"]),
        (", category: 6A, length: 20 m, owned: false", ["bulk"]),
        (", category: 6A, length: 20 m, cord: 26 AWG", ["made_up"]),
        (", category: OM4, length: 20 m", ["made_up"]),
        (", category: 6A, length: 20 m, installed: true", ["installed"]),
        (", category: 6A, length: 20 m, owned: true", ["owned"]),
        (", category: 6A, length: 20 m, owned: true, installed: true", ["installed"]),
        (", length: 20 m", ["identify"]),
        (", length: 20 m, cord: 26 AWG", ["identify"]),
        ("", ["measure", "identify"]),
        (", length: 20 m, installed: true", ["identify", "installed"]),
        (", installed: true", ["measure", "identify", "installed"]),
        (", length: 20 m, owned: true", ["identify", "owned"]),
    ],
)
def test_a_run_between_two_passive_ports_stands_where_its_facts_put_it(keys: str, lists: list[str]) -> None:
    assert lists == where(sorted_wall(keys), "W02")


def test_a_copper_cable_at_an_active_port_is_bought_made_up_though_it_names_no_gauge() -> None:
    found = shopping(plan_of(room(cables="  C03: {from: core/3, to: panel/3, category: 6A, length: 2 m}")))

    assert ["made_up"] == where(found, "C03")


@pytest.mark.parametrize(
    ("category", "screened"), [("7", True), ("7A", True), ("8.1", True), ("8.2", True), ("6A", False), ("5e", False)]
)
def test_what_is_screened_by_construction_is_bought_screened(category: str, screened: bool) -> None:
    """IEC 60603-7-7, -7-71, -7-81 and -7-82: connectors of these categories are shielded."""
    cables = (
        f"  W02: {{from: plate/2, to: panel/2, category: {category}, length: 20 m}}\n"
        f"  C03: {{from: core/3, to: panel/3, category: {category}, length: 2 m}}"
    )
    found = shopping(plan_of(room(cables=cables)))

    assert {"W02": screened, "C03": screened} == {
        cable.name: cable.screened for cable in (*found.bulk, *found.made_up) if cable.name in ("W02", "C03")
    }


def test_every_list_is_in_the_order_of_the_plan() -> None:
    found = shopping(plan_of(room()))

    assert ["C01", "P01", "D01"] == [cable.name for cable in found.made_up]
    assert ("W01",) == found.installed


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans())
def test_each_cable_is_in_one_list_and_to_be_identified_as_well_only_if_it_is_there(plan: Plan) -> None:
    found = shopping(plan)
    there = {*found.installed, *found.owned}
    bought = [cable.name for cable in (*found.made_up, *found.bulk)]
    times = Counter([*bought, *found.identify, *found.installed, *found.owned])

    for name, cable in plan.cables.items():
        assert 1 + (name in there and cable.category == "unknown") == times[name]
        assert (cable.length_m is None) == (name in found.measure)
    assert plan.cables.keys() == times.keys()
    assert all(cable.category in COPPER_CATEGORIES for cable in found.bulk)
    assert all(cable.category != "unknown" for cable in found.made_up)
