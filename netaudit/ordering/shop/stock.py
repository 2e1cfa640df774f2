"""Stock: the lengths and boxes that can be bought, and what they cost."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from itertools import product
from math import ceil
from typing import NamedTuple

from netaudit.model.goods import Goods
from netaudit.model.plan import Category, Price, StockItem
from netaudit.ordering.request import Series
from netaudit.ordering.shop.matching import (
    facts_beyond,
    facts_said,
    folded,
    is_kind,
    is_length,
    length_in_m,
    length_step,
    length_steps,
    names,
)
from netaudit.standards.sold import held_m, sold_boxes, sold_lengths
from netaudit.units import EQUAL_WITHIN_M

STEP_DECIMALS = 4
"""Decimals of a foot in metres."""


class _Rank(NamedTuple):
    """How well an item gives the price of goods; the greatest does it best."""

    said: int
    """Facts of the goods that it gives."""
    not_beyond: int
    """Facts that it gives and the goods leave open, counted below zero."""
    is_listed: bool
    """Whether it is a price alone."""
    early: int
    """Its place, counted down."""


class Stock:
    """What can be bought.

    An item matches goods if its `what` is one of their names and each fact that it gives is theirs. Of several the one
    that says most of the goods, and least beyond them, gives the price; among equals `prices` come before
    `plan_stock`, and then the first in the file counts, even where another one is cheaper.
    """

    def __init__(self, plan_stock: Sequence[StockItem], prices: Sequence[StockItem], series: Series) -> None:
        """The plan's own stock, prices that override its own, and the series of lengths for what it does not list.

        Where the plan's stock names lengths of some goods, no others are sold.
        """
        self._plan_stock = tuple(plan_stock)
        self._listed = tuple(prices)
        self._series = series
        self._prices: dict[Goods, Price | None] = {}
        self._lengths_m: dict[Goods, tuple[float, ...]] = {}

    def sold_length_m(self, goods: Goods, needed_m: float) -> float:
        """The least length that is sold and long enough [m], for a kind of cable and a length needed [m].

        It is one of the plan's stock; where all of these are too short, and where there are none, one of the series;
        where these are too short as well, the next whole metre or foot, made to order. `goods` have no length yet.
        Raises KeyError for goods that are no made-up cable.
        """
        series = sold_lengths()[goods.what, self._series]
        for lengths_m in (self._own_lengths_m(goods), series.lengths_m):
            least_m = _least_m(lengths_m, needed_m)
            if least_m is not None:
                return least_m
        return round(ceil((needed_m - EQUAL_WITHIN_M) / series.step_m) * series.step_m, STEP_DECIMALS)

    def own_length_m(self, goods: Goods, needed_m: float) -> float | None:
        """The least length of the plan's stock that is long enough [m]; None where it has none."""
        return _least_m(self._own_lengths_m(goods), needed_m)

    def falls_short(self, goods: Goods, needed_m: float) -> bool:
        """Whether the plan's stock names lengths of a kind of cable, and all are shorter than the one needed [m]."""
        return bool(self._own_lengths_m(goods)) and self.own_length_m(goods, needed_m) is None

    def price(self, goods: Goods) -> Price | None:
        """Price of one; None where nobody gave it."""
        if goods not in self._prices:
            best = max(self._offers(goods), key=lambda offer: offer[0], default=None)
            self._prices[goods] = None if best is None else best[1]
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
                for item in self._plan_stock
                if item.length_m is not None and folded(item.what) in known and is_kind(item, goods)
            }
            self._lengths_m[goods] = tuple(sorted(lengths_m))
        return self._lengths_m[goods]

    def _offers(self, goods: Goods) -> Iterator[tuple[_Rank, Price]]:
        """Each item with a price that matches goods: how well it does, and its price."""
        steps = dict.fromkeys((None, *length_steps(goods.length_m)))
        for (name, said), step in product(names(goods).items(), steps):
            for position, item, price in self._priced.get((name, step), ()):
                if is_kind(item, goods) and is_length(item, goods):
                    rank = _Rank(
                        said=len(said | facts_said(item, goods)),
                        not_beyond=-facts_beyond(item, goods),
                        is_listed=position < len(self._listed),
                        early=-position,
                    )
                    yield rank, price

    @cached_property
    def _priced(self) -> Mapping[tuple[str, int | None], Sequence[tuple[int, StockItem, Price]]]:
        """Items with a price by folded name and step of length, each with its place: prices first, then the stock.

        A box stands at the length that it holds too, which may not be the one that is printed on it.
        """
        found: dict[tuple[str, int | None], list[tuple[int, StockItem, Price]]] = {}
        for position, item in enumerate((*self._listed, *self._plan_stock)):
            if item.price is not None:
                for step in _steps_of(item):
                    found.setdefault((folded(item.what), step), []).append((position, item, item.price))
        return found


def _steps_of(item: StockItem) -> set[int | None]:
    """Where an item stands by its length."""
    if item.length_m is None:
        return {None}
    return {length_step(item.length_m), length_step(held_m(item.length_m))}


def _least_m(lengths_m: Sequence[float], needed_m: float) -> float | None:
    """The first of ascending lengths [m] that is long enough; None where all are too short."""
    place = bisect_left(lengths_m, needed_m - EQUAL_WITHIN_M)
    return lengths_m[place] if place < len(lengths_m) else None
