"""Cords and other made-up cables as rows of the bill."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rooms import plan_of, room
from strategies import plans

from netaudit.model.goods import Goods, Item
from netaudit.model.plan import Plan, Price, StockItem
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.module_choice import choices
from netaudit.ordering.request import Series
from netaudit.ordering.shop.fitting import Fitted, fitted
from netaudit.ordering.shop.made_up import fibres_of, fibres_text, made_up, spares
from netaudit.ordering.shop.shopping import shopping
from netaudit.ordering.shop.stock import Stock

CORD = Goods("cord", category="6A", screened=False, gauge_awg=26)


def fit(plan: Plan) -> Fitted:
    topology = build_topology(plan)
    return fitted(plan, topology, choices(plan, topology).chosen)


def test_fibres_are_counted_in_words() -> None:
    assert ["1 fibre", "2 fibres", "12 fibres"] == [fibres_text(fibres) for fibres in (1, 2, 12)]


def bought(cables: str, *stock: StockItem) -> dict[str, Item]:
    """The row that each cable of the room stands in, by its name."""
    plan = plan_of(room(cables=cables))
    rows = made_up(fit(plan), shopping(plan).made_up, Stock(stock, (), "metric"), 0.1)
    return {name: row for row in rows for name in row.serves}


def only(keys: str) -> Goods:
    """What one more cable between switch and panel is bought as."""
    return bought(f"  X01: {{from: core/3, to: panel/3, {keys}}}")["X01"].goods


def test_cords_of_one_kind_and_length_are_one_row_in_the_order_of_the_plan() -> None:
    rows = bought("  C02: {from: core/3, to: panel/3, category: 6A, length: 2.4 m, cord: 26 AWG}")

    assert ("C01", "C02") == rows["C01"].serves
    assert CORD._replace(length_m=3.0) == rows["C02"].goods
    assert (2, 1) == (rows["C01"].quantity, rows["C01"].spares)
    assert ["C01", "C02", "P01", "D01"] == list(rows)
    assert Goods("twinax", category="twinax", ends="sfp+ - sfp+", length_m=1.0) == rows["D01"].goods


@pytest.mark.parametrize(
    ("keys", "goods"),
    [
        ("category: 6A, length: 2 m", CORD._replace(gauge_awg=None, length_m=2.0)),
        ("category: 6A, cord: 26 AWG", CORD),
        ("category: 6A, cord: 26 AWG, fibres: 12", CORD),
        ("category: 6A, length: 2 m, cord: 28 AWG, screened: true", CORD._replace(gauge_awg=28, screened=True, length_m=2.0)),
        ("category: OM4, length: 6 m", Goods("fibre cord", category="OM4", length_m=7.0)),
        ("category: OM4, length: 6 m, fibres: 2", Goods("fibre cord", category="OM4", length_m=7.0)),
        ("category: OM4, length: 6 m, fibres: 12", Goods("fibre cord", "12 fibres", "OM4", length_m=7.0)),
        ("category: OS2, length: 6 m, fibres: 1", Goods("fibre cord", "1 fibre", "OS2", length_m=7.0)),
        ("category: OM4, length: 6 m, screened: true", Goods("fibre cord", category="OM4", length_m=7.0)),
        ("category: active-twinax, length: 8 m, rates: 10G", Goods("active twinax", "10 Gb/s", "active-twinax", length_m=10.0)),
        ("category: active-optical, length: 8 m, rates: [10G, 25G]", Goods("active optical cable", "25 Gb/s and 10 Gb/s", "active-optical", length_m=10.0)),
        ("category: thunderbolt, length: 0.6 m", Goods("thunderbolt cable", category="thunderbolt", length_m=0.8)),
        ("category: usb", Goods("usb cable", category="usb")),
    ],
)  # fmt: skip
def test_a_cable_is_bought_as_what_its_facts_say_and_no_more(keys: str, goods: Goods) -> None:
    assert goods == only(keys)


WIDE = """\
netaudit: 1
devices:
  a:
    role: switch
    ports:
      1: {connector: qsfp+, module: 40GBASE-SR4}
      2: {connector: sfp+, rates: [10G], module: 10GBASE-BR10-D}
      3: {connector: qsfp+, module: 40GBASE-LR4}
      4: {connector: qsfp+, rates: [40G]}
  b: {role: switch, ports: {1: {connector: qsfp+}, 2: {connector: sfp+}, 3: {connector: qsfp+}, 4: {connector: qsfp+}}}
cables:
"""


@pytest.mark.parametrize(
    ("line", "goods"),
    [
        ("from: a/1, to: b/1, category: OM4", Goods("fibre cord", "8 fibres", "OM4", ends="mpo - mpo")),
        ("from: a/1, to: b/1, category: OM4, fibres: 12", Goods("fibre cord", "12 fibres", "OM4", ends="mpo - mpo")),
        ("from: a/1, to: b/1, category: OM4, fibres: 2", Goods("fibre cord", None, "OM4", ends="mpo - mpo")),
        ("from: a/2, to: b/2, category: OS2", Goods("fibre cord", "1 fibre", "OS2", ends="lc - lc")),
        ("from: a/3, to: b/3, category: OS2", Goods("fibre cord", None, "OS2", ends="lc - lc")),
        ("from: a/4, to: b/4, category: OM4", Goods("fibre cord", None, "OM4")),
    ],
)
def test_plugs_and_fibres_of_a_cord_follow_the_module_at_the_far_end_too(line: str, goods: Goods) -> None:
    """IEEE 802.3 clauses 86, 87 and 158: eight fibres, two, and one."""
    plan = plan_of(f"{WIDE}  F1: {{{line}}}")
    (row,) = made_up(fit(plan), shopping(plan).made_up, Stock((), (), "metric"), 0.1)
    assert goods == row.goods


def test_the_fibres_of_the_plan_go_before_those_of_the_modules() -> None:
    plan = plan_of(f"{WIDE}  F1: {{from: a/1, to: b/1, category: OM4}}")
    line = plan.cables["F1"]
    assert (8, 12) == (fibres_of(fit(plan), line), fibres_of(fit(plan), line._replace(fibres=12)))


def test_a_row_has_the_price_of_its_length() -> None:
    rows = bought("", StockItem("patch cord", "6A", length_m=3.0, price=Price(Decimal("7.20"), "EUR")))

    assert Price(Decimal("7.20"), "EUR") == rows["C01"].price
    assert rows["P01"] is rows["C01"], "the stock has no cord of one metre"
    assert Price(Decimal("21.60"), "EUR") == rows["P01"].cost
    assert rows["D01"].price is None


@pytest.mark.parametrize(
    ("quantity", "share", "expected"),
    [
        (1, 0.1, 1), (10, 0.1, 1), (11, 0.1, 2), (20, 0.1, 2), (30, 0.1, 3), (70, 0.1, 7), (110, 0.1, 11), (1, 0.0, 1),
        (500, 0.0, 1), (3, 1.0, 3), (4, 2.5, 10), (100, 0.07, 7), (100, 0.29, 29), (10_000, 1e-05, 1), (0, 0.1, 1),
        (1000, 0.001, 1), (1001, 0.001, 2),
    ],
)  # fmt: skip
def test_spares_are_the_share_rounded_up_without_noise_and_one_at_least(
    quantity: int, share: float, expected: int
) -> None:
    assert expected == spares(quantity, share)


@settings(max_examples=100, deadline=None)
@given(quantity=st.integers(0, 10**6), thousandths=st.integers(0, 10_000))
def test_spares_are_the_least_whole_number_that_is_the_share(quantity: int, thousandths: int) -> None:
    share = quantity * Fraction(thousandths, 1000)
    found = spares(quantity, thousandths / 1000)

    assert found >= max(share, 1)
    assert found == 1 or found - 1 < share


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans(), series=st.sampled_from(("metric", "imperial")), share=st.sampled_from((0.0, 0.1, 3.0)))
def test_every_cable_that_is_bought_is_in_one_row_that_is_long_enough(plan: Plan, series: Series, share: float) -> None:
    cables = shopping(plan).made_up
    rows = made_up(fit(plan), cables, Stock(plan.stock, (), series), share)

    assert len(cables) == sum(row.quantity for row in rows)
    assert sorted(cable.name for cable in cables) == sorted(name for row in rows for name in row.serves)
    assert len(rows) == len({row.goods for row in rows})
    for row in rows:
        assert row.quantity == len(row.serves)
        assert row.spares == spares(row.quantity, share) >= 1
        for name in row.serves:
            needed_m, sold_m = plan.cables[name].length_m, row.goods.length_m
            assert (needed_m is None) == (sold_m is None)
            assert needed_m is None or sold_m is None or sold_m >= needed_m - 1e-9
