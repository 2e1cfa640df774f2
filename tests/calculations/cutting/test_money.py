"""Prices as whole numbers and back, without loss."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from netaudit.calculations.cutting.money import Money

prices = st.lists(
    st.decimals(min_value=0, max_value=10**9, allow_nan=False, allow_infinity=False), min_size=1, max_size=5
)


@given(prices)
def test_every_price_comes_back_as_it_was(asked: list[Decimal]) -> None:
    money = Money(asked)
    assert asked == [money.price(money.cost(price)) for price in asked]


def test_the_unit_is_the_largest_of_which_all_prices_are_multiples() -> None:
    money = Money([Decimal("189.00"), Decimal("109.50"), Decimal("3E+2")])
    assert [126, 73, 200] == [money.cost(Decimal(price)) for price in ("189", "109.5", "300")]
    assert "4.50" == str(money.price(3))


def test_whole_prices_stay_without_decimals() -> None:
    assert "300" == str(Money([Decimal(100), Decimal(150)]).price(6))
