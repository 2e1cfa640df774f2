"""Two bills side by side: what is more."""

from __future__ import annotations

from netaudit.model.comparison import Difference
from netaudit.model.goods import Goods


def test_more_is_what_the_second_bill_orders_beyond_the_first() -> None:
    assert 3 == Difference("cables", Goods("cord"), before=2, after=5, price=None).more
    assert -2 == Difference("cables", Goods("cord"), before=2, after=0, price=None).more
