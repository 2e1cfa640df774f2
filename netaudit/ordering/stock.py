"""Stock: the lengths and boxes that can be bought, and what they cost."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from math import ceil

from netaudit.model.goods import Goods
from netaudit.model.plan import Category, Price, StockItem
from netaudit.ordering.matching import facts_said, folded, is_kind, is_length, length_in_m, names
from netaudit.ordering.request import Series
from netaudit.standards.sold import held_m, sold_boxes, sold_lengths

LENGTH_NOISE_M = 1e-9
"""Difference up to which a length serves one that is longer [m]: the noise of binary fractions."""
STEP_DECIMALS = 4
"""Decimals of a foot in metres."""


@dataclass(frozen=True)
class Stock:
    """What can be bought.

    An item matches goods if its `what` is one of their names and each fact that it gives is theirs. Of several the one
    that says most gives the price; among equals `prices` come before `plan_stock`, and then the first in the file
    counts, even where another one is cheaper.
    """

    plan_stock: Sequence[StockItem]
    """The plan's own: where it names lengths of some goods, no others are sold."""
    prices: Sequence[StockItem]
    """Prices alone, which override those of the plan's stock."""
    series: Series
    """Lengths in which cables are sold of which the plan's stock names none."""
    _prices: dict[Goods, Price | None] = field(default_factory=dict, init=False, compare=False, repr=False)
    _lengths_m: dict[Goods, tuple[float, ...]] = field(default_factory=dict, init=False, compare=False, repr=False)

    def sold_length_m(self, goods: Goods, needed_m: float) -> float:
        """The least length that is sold and long enough [m], for a kind of cable and a length needed [m].

        It is one of the plan's stock; where all of these are too short, and where there are none, one of the series;
        where these are too short as well, the next whole metre or foot, made to order. `goods` have no length yet.
        Raises KeyError for goods that are no made-up cable.
        """
        series = sold_lengths()[goods.what, self.series]
        for lengths_m in (self._own_lengths_m(goods), series.lengths_m):
            place = bisect_left(lengths_m, needed_m - LENGTH_NOISE_M)
            if place < len(lengths_m):
                return lengths_m[place]
        return round(ceil((needed_m - LENGTH_NOISE_M) / series.step_m) * series.step_m, STEP_DECIMALS)

    def falls_short(self, goods: Goods, needed_m: float) -> bool:
        """Whether the plan's stock names lengths of a kind of cable, and all are shorter than the one needed [m]."""
        own = self._own_lengths_m(goods)
        return bool(own) and own[-1] < needed_m - LENGTH_NOISE_M

    def price(self, goods: Goods) -> Price | None:
        """Price of one; None where nobody gave it."""
        if goods not in self._prices:
            best = max(self._offers(goods), key=lambda offer: offer[:2], default=None)
            self._prices[goods] = None if best is None else best[2]
        return self._prices[goods]

    def box_sizes(
        self,
        category: Category,
        screened: bool,  # noqa: FBT001 - a fact of the cable
        own_m: Sequence[float],
    ) -> tuple[tuple[float, Price | None], ...]:
        """Length in each box that can be bought [m], with the price of one.

        Those that the caller names [m]; where there are none, those of the plan's stock; else the usual box. A box on
        which 305 m is printed holds 1000 ft.
        """
        goods = Goods("box", category=category, screened=screened)
        sizes_m = tuple(map(held_m, own_m)) or self._own_lengths_m(goods) or (sold_boxes()[0].length_m,)
        return tuple((size_m, self.price(goods._replace(length_m=size_m))) for size_m in dict.fromkeys(sizes_m))

    def _own_lengths_m(self, goods: Goods) -> tuple[float, ...]:
        """Lengths of the plan's stock of goods that have none yet, the shortest first [m]."""
        if goods not in self._lengths_m:
            known = names(goods)
            lengths_m = {
                length_in_m(item.length_m, goods)
                for item in self.plan_stock
                if item.length_m is not None and folded(item.what) in known and is_kind(item, goods)
            }
            self._lengths_m[goods] = tuple(sorted(lengths_m))
        return self._lengths_m[goods]

    def _offers(self, goods: Goods) -> Iterator[tuple[int, int, Price]]:
        """How much each item with a price says that matches goods, how early it stands, and its price."""
        for name, said in names(goods).items():
            for position, item, price in self._priced.get(name, ()):
                if is_kind(item, goods) and is_length(item, goods):
                    yield said + facts_said(item, goods), -position, price

    @cached_property
    def _priced(self) -> Mapping[str, Sequence[tuple[int, StockItem, Price]]]:
        """Items with a price by their folded name, each with its place: prices first, then the plan's stock."""
        found: dict[str, list[tuple[int, StockItem, Price]]] = {}
        for position, item in enumerate((*self.prices, *self.plan_stock)):
            if item.price is not None:
                found.setdefault(folded(item.what), []).append((position, item, item.price))
        return found
