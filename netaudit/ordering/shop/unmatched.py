"""Unmatched prices: rows of a price list that are the price of nothing on the bill."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from netaudit.listing import listed
from netaudit.model.bill import Bulk
from netaudit.model.goods import Goods, Item
from netaudit.model.plan import StockItem
from netaudit.ordering.shop.matching import folded, is_kind, is_length, names
from netaudit.ordering.shop.stock import Stock
from netaudit.standards.sold import sold_boxes
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
    odd = [item for item in prices if not _matches(item, known.get(folded(item.what), ()))]
    if not odd:
        return ()
    rows = "1 row of the prices matches" if len(odd) == 1 else f"{len(odd)} rows of the prices match"
    told = listed(dict.fromkeys(map(_text, odd)))
    return (f"{rows} nothing on this bill: {told}. Name things as the bill's own CSV does.",)


def _by_name(goods: Iterable[Goods]) -> dict[str, list[Goods]]:
    found: dict[str, list[Goods]] = {}
    for one in dict.fromkeys(goods):
        for name in names(one):
            found.setdefault(name, []).append(one)
    return found


def _matches(item: StockItem, among: Iterable[Goods]) -> bool:
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
