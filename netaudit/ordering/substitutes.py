"""Substitutes: where the bill has something else than the plan or its stock says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from netaudit.model.goods import Goods
from netaudit.model.plan import Cable, Plan
from netaudit.ordering.made_up import cable_goods
from netaudit.ordering.shopping import Shopping
from netaudit.ordering.stock import Stock
from netaudit.ordering.words import listed
from netaudit.units import length_text


def substitutes(plan: Plan, shopping: Shopping, stock: Stock) -> tuple[str, ...]:
    """What is bought in place of what cannot be had, a sentence each: clad conductors, lengths that the stock lacks."""
    bought = (*shopping.made_up, *shopping.bulk)
    return (*_clad(bought), *_beyond_stock(plan, shopping.made_up, stock))


def _clad(cables: Iterable[Cable]) -> Iterator[str]:
    names = [cable.name for cable in cables if cable.material == "aluminium-clad"]
    if names:
        yield f"{listed(names)}: no standard allows copper-clad aluminium; the bill has solid copper."


def _beyond_stock(plan: Plan, cables: Iterable[Cable], stock: Stock) -> Iterator[str]:
    lacking: dict[tuple[Goods, float], list[str]] = {}
    for cable in cables:
        goods = cable_goods(plan, cable)
        if cable.length_m is not None and stock.falls_short(goods, cable.length_m):
            lacking.setdefault((goods, stock.sold_length_m(goods, cable.length_m)), []).append(cable.name)
    for (goods, length_m), names in lacking.items():
        yield (
            f"{listed(names)}: the stock has no {goods.name} {goods.category} that is long enough; "
            f"the bill has one of {length_text(length_m)}, as they are sold elsewhere."
        )
