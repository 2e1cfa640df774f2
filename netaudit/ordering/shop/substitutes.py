"""Substitutes: where the bill has something else than the plan says, or than anybody would choose."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from netaudit.listing import listed
from netaudit.model.goods import Goods
from netaudit.model.plan import Cable, Plan
from netaudit.ordering.shop.fitting import Fitted
from netaudit.ordering.shop.made_up import cable_goods
from netaudit.ordering.shop.shopping import Shopping
from netaudit.ordering.shop.stock import Stock
from netaudit.standards.screens import screened_categories
from netaudit.units import length_text, sold_length_text

MUCH_LONGER = 3
"""Times the length needed from which a cable of the stock is told to be long: common practice, no source."""
MUCH_LONGER_BY_M = 2.0
"""Length too much from which it is told [m]: common practice, no source."""


def substitutes(fitted: Fitted, shopping: Shopping, stock: Stock) -> tuple[str, ...]:
    """What is bought in place of what cannot be had, a sentence each.

    Clad conductors, screens that a category has anyway, connectors that are not what they look like, and lengths that
    the stock lacks.
    """
    bought = (*shopping.made_up, *shopping.bulk)
    return (
        *_clad(bought),
        *_screened(fitted.plan, bought),
        *_connectors(shopping.bulk),
        *_beyond_stock(fitted, shopping.made_up, stock),
        *_much_longer(fitted, shopping.made_up, stock),
    )


def _clad(cables: Iterable[Cable]) -> Iterator[str]:
    names = [cable.name for cable in cables if cable.material == "aluminium-clad"]
    if names:
        yield f"{listed(names)}: no standard allows copper-clad aluminium; the bill has solid copper."


def _screened(plan: Plan, cables: Iterable[Cable]) -> Iterator[str]:
    """Cables that are bought screened although the plan does not say so."""
    for category, names in _by_category(cable for cable in cables if not plan.cables[cable.name].screened).items():
        made = screened_categories()[category]
        yield (
            f"{listed(names)}: category {category} has a screen by construction ({made.source.document}); "
            "the bill has it screened."
        )


def _connectors(runs: Iterable[Cable]) -> Iterator[str]:
    """Runs whose own connectors are no plain RJ45."""
    for category, names in _by_category(runs).items():
        made = screened_categories()[category]
        if made.rj45_class is not None:
            count = "it counts" if len(names) == 1 else "they count"
            yield (
                f"{listed(names)}: connectors of category {category} are no plain RJ45 ({made.connectors}): ask which "
                f"ones panels and outlets take; with RJ45 {count} as class {made.rj45_class} at most."
            )


def _by_category(cables: Iterable[Cable]) -> dict[str, list[str]]:
    """Names of cables of each category that is screened by construction."""
    found: dict[str, list[str]] = {}
    for cable in cables:
        if cable.category in screened_categories():
            found.setdefault(cable.category, []).append(cable.name)
    return found


def _beyond_stock(fitted: Fitted, cables: Iterable[Cable], stock: Stock) -> Iterator[str]:
    lacking: dict[tuple[Goods, float], list[str]] = {}
    for cable in cables:
        goods = cable_goods(fitted, cable)
        if cable.length_m is not None and stock.falls_short(goods, cable.length_m):
            lacking.setdefault((goods, stock.sold_length_m(goods, cable.length_m)), []).append(cable.name)
    for (goods, length_m), names in lacking.items():
        yield (
            f"{listed(names)}: the stock has no {goods.name} {goods.category} that is long enough; "
            f"the bill has one of {sold_length_text(length_m)}, as they are sold elsewhere."
        )


def _much_longer(fitted: Fitted, cables: Iterable[Cable], stock: Stock) -> Iterator[str]:
    """Cables for which the stock has only much longer ones."""
    longer: dict[tuple[Goods, float], list[tuple[str, float]]] = {}
    for cable in cables:
        if cable.length_m is None:
            continue
        goods = cable_goods(fitted, cable)
        own_m = stock.own_length_m(goods, cable.length_m)
        if own_m is not None and own_m > MUCH_LONGER * cable.length_m and own_m - cable.length_m > MUCH_LONGER_BY_M:
            longer.setdefault((goods, own_m), []).append((cable.name, cable.length_m))
    for (goods, own_m), needed in longer.items():
        names, longest_m = [name for name, _ in needed], max(length_m for _, length_m in needed)
        need = "is needed" if len(needed) == 1 else "are needed at most"
        yield (
            f"{listed(names)}: the least {goods.name} {goods.category} of the stock that is long enough has "
            f"{sold_length_text(own_m)}, where {length_text(longest_m)} {need}: add shorter ones to `stock` if they "
            "can be had."
        )
