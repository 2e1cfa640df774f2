"""Goods: how many to order, and what they come to."""

from __future__ import annotations

from decimal import Decimal

import pytest

from netaudit.model.goods import Goods, Item
from netaudit.model.plan import Price

CORD = Goods("cord", category="6A", screened=False, gauge_awg=26, length_m=3.0)


def test_a_thing_is_called_by_what_it_is_and_by_its_detail() -> None:
    assert "cord" == CORD.name
    assert "module 10GBASE-SR" == Goods("module", detail="10GBASE-SR").name
    assert "box" == Goods("box", category="6A", length_m=500.0).name


def test_spares_are_ordered_too_and_paid_for() -> None:
    item = Item(CORD, quantity=4, spares=1, serves=("C01",), price=Price(Decimal("7.20"), "EUR"))

    assert 5 == item.order
    assert Price(Decimal("36.00"), "EUR") == item.cost


def test_what_has_no_price_costs_nobody_knows_what() -> None:
    assert None is Item(CORD, quantity=4, spares=1, serves=("C01",)).cost


def test_a_category_that_its_name_tells_already_is_not_told_again() -> None:
    assert "twinax, sfp+ - sfp+, 1 m" == Goods("twinax", category="twinax", ends="sfp+ - sfp+", length_m=1.0).text
    assert "active optical cable" == Goods("active optical cable", category="active-optical").text
    assert "fibre cord OM4" == Goods("fibre cord", category="OM4").text


@pytest.mark.parametrize(
    ("goods", "expected"),
    [
        (Goods("cord", None, "6A", True, 26, "rj45 - rj45", 3.0), "cord 6A, screened, 26 AWG, rj45 - rj45, 3 m"),
        (Goods("cord", None, "6A", False), "cord 6A"),
        (Goods("module", "10GBASE-SR", ends="lc"), "module 10GBASE-SR, lc"),
        (Goods("panel", "24 x rj45"), "panel 24 x rj45"),
        (Goods("box", category="6A", screened=True), "box of cable 6A, screened"),
        (Goods("box", category="6A", length_m=304.8), "box of cable 6A, 304.8 m (1000 ft)"),
        (Goods("box", category="6A", length_m=499.0), "box of cable 6A, 499 m"),
        (Goods("box", category="6A", length_m=500.0), "reel of cable 6A, 500 m"),
        (Goods("box"), "box of cable"),
        (Goods("cord", category="6A", length_m=3.048), "cord 6A, 10 ft (3.05 m)"),
    ],
)
def test_goods_are_told_by_what_is_known_of_them(goods: Goods, expected: str) -> None:
    assert expected == goods.text
