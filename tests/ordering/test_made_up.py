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
from netaudit.ordering.made_up import made_up, spares
from netaudit.ordering.request import Series
from netaudit.ordering.shopping import shopping
from netaudit.ordering.stock import Stock

CORD = Goods("cord", category="6A", screened=False, gauge_awg=26)


def bought(cables: str, *stock: StockItem) -> dict[str, Item]:
    """The row that each cable of the room stands in, by its name."""
    plan = plan_of(room(cables=cables))
    rows = made_up(plan, shopping(plan).made_up, Stock(stock, (), "metric"), 0.1)
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
    rows = made_up(plan, cables, Stock(plan.stock, (), series), share)

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
