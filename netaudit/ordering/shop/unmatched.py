"""Unmatched prices: rows of a price list that are the price of nothing on the bill."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

from netaudit.listing import listed
from netaudit.model.bill import Bulk
from netaudit.model.goods import Goods, Item
from netaudit.model.plan import StockItem
from netaudit.ordering.shop.matching import folded, is_kind, is_length, length_step, length_steps, names
from netaudit.ordering.shop.stock import Stock
from netaudit.standards.sold import held_m, sold_boxes
from netaudit.units import sold_length_text


def unmatched(
    prices: Sequence[StockItem], items: Iterable[Item], bulks: Sequence[Bulk], stock: Stock, boxes_m: Sequence[float]
) -> tuple[str, ...]:
    """A sentence on rows of a price list that match nothing which is ordered or could be; none where all match.

    `boxes_m` are the sizes of boxes that the caller names [m]: those that were not chosen are still asked for, and so
    are usual reels beside a longer one.
    """
    sizes = (
        bulk.kind._replace(length_m=size_m)
        for bulk in bulks
        for size_m, _ in stock.box_sizes(bulk.category, bulk.screened, boxes_m)
    )
    reels = (
        bulk.kind._replace(length_m=reel.length_m)
        for bulk in bulks
        for reel in sold_boxes()
        if reel.kind == "reel" and any(reel.length_m < box.size_m for box in bulk.boxes)
    )
    boxes = (item.goods for bulk in bulks for item in bulk.items)
    kinds = (bulk.kind for bulk in bulks)
    known = _by_name((*(item.goods for item in items), *boxes, *kinds, *sizes, *reels))
    odd = [item for item in prices if not _matches(item, known)]
    if not odd:
        return ()
    rows = "1 row of the prices matches" if len(odd) == 1 else f"{len(odd)} rows of the prices match"
    told = listed(dict.fromkeys(map(_text, odd)))
    return (f"{rows} nothing on this bill: {told}. Name things as the bill's own CSV does.",)


_Known = Mapping[tuple[str, int | None], Collection[Goods]]
"""Goods by folded name and step of length; those of every length stand at None too, without theirs."""


def _by_name(goods: Iterable[Goods]) -> _Known:
    found: dict[tuple[str, int | None], dict[Goods, None]] = {}
    for one in goods:
        step = None if one.length_m is None else length_step(one.length_m)
        for name in names(one):
            found.setdefault((name, step), {})[one] = None
            found.setdefault((name, None), {})[one._replace(length_m=None)] = None
    return found


def _matches(item: StockItem, known: _Known) -> bool:
    held = None if item.length_m is None else held_m(item.length_m)
    name, steps = folded(item.what), dict.fromkeys((*length_steps(item.length_m), *length_steps(held)))
    among = (goods for step in steps for goods in known.get((name, step), ()))
    return any(is_kind(item, goods) and is_length(item, goods) for goods in among)


def _text(item: StockItem) -> str:
    """A row in words."""
    parts = (
        item.what if item.category is None else f"{item.what} {item.category}",
        {None: None, True: "screened", False: "unscreened"}[item.screened],
        None if item.cord_awg is None else f"{item.cord_awg} AWG",
        item.ends,
        None if item.length_m is None else sold_length_text(item.length_m),
    )
    return ", ".join(part for part in parts if part is not None)
