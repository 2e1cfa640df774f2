"""Bulk cable: the runs between passive ports, cut from boxes and reels and never joined."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, floor
from typing import NamedTuple

from netaudit.calculations.cutting import BoxSize, Cutting, cut
from netaudit.model.bill import Box, Bulk, Cut
from netaudit.model.goods import Goods
from netaudit.model.plan import Cable, Category, Price
from netaudit.ordering.request import Request
from netaudit.ordering.stock import Stock
from netaudit.standards.sold import sold_boxes

MM_PER_M = 1000
NOISE_DIGITS = 6
"""Decimals of a millimetre beyond which a number is only the noise of binary fractions."""


class _Row(NamedTuple):
    """All runs of one kind of cable, before anything is cut."""

    category: Category
    screened: bool
    runs: tuple[tuple[Cable, float], ...]
    """Measured runs that some box holds, each with its own length [m]."""
    needs_mm: tuple[int, ...]
    """What each of them takes off a box, waste included [mm]."""
    sizes: tuple[tuple[float, Price | None], ...]
    """Sizes of boxes to cut from [m], with the price of one."""
    unmeasured: tuple[str, ...]
    too_long: tuple[str, ...]


def bulk(cables: Sequence[Cable], stock: Stock, request: Request) -> tuple[tuple[Bulk, ...], bool]:
    """A row for each category and screen, in the order of their first cables, and whether somebody stopped the search.

    Each run takes its length and the waste at both ends off one box, in whole millimetres. The time allowed is shared
    by the rows according to how many runs each has.
    """
    kinds: dict[tuple[Category, bool], list[Cable]] = {}
    for cable in cables:
        kinds.setdefault((cable.category, cable.screened), []).append(cable)
    rows = [_row(members, stock, request) for members in kinds.values()]
    total = sum(len(row.runs) for row in rows)
    found: list[Bulk] = []
    stopped = False
    for row in rows:
        if not row.runs:
            found.append(_uncut(row))
            continue
        cutting = _cutting(row, request, request.limit_s * len(row.runs) / total)
        stopped = stopped or cutting.stopped
        found.append(_bulk(row, cutting))
    return tuple(found), stopped


def _row(cables: Sequence[Cable], stock: Stock, request: Request) -> _Row:
    category, screened = cables[0].category, cables[0].screened
    measured = [
        (cable, cable.length_m, _up_mm(cable.length_m + 2 * request.waste_m))
        for cable in cables
        if cable.length_m is not None
    ]
    box = Goods("box", category=category, screened=screened)
    sizes = stock.box_sizes(category, screened, request.boxes_m)
    if not request.boxes_m:
        sizes = _with_reel(
            sizes, [need for _, _, need in measured], lambda reel_m: stock.price(box._replace(length_m=reel_m))
        )
    most_mm = max(_down_mm(size) for size, _ in sizes)
    return _Row(
        category=category,
        screened=screened,
        runs=tuple((cable, length) for cable, length, need in measured if need <= most_mm),
        needs_mm=tuple(need for _, _, need in measured if need <= most_mm),
        sizes=sizes,
        unmeasured=tuple(cable.name for cable in cables if cable.length_m is None),
        too_long=tuple(cable.name for cable, _, need in measured if need > most_mm),
    )


def _with_reel(
    sizes: tuple[tuple[float, Price | None], ...], needs_mm: Sequence[int], price: Callable[[float], Price | None]
) -> tuple[tuple[float, Price | None], ...]:
    """The same and, where a run is longer than all of them, the least usual reel that holds the longest run it can."""
    most_mm = max(_down_mm(size) for size, _ in sizes)
    reels = sorted(box.length_m for box in sold_boxes() if box.kind == "reel" and _down_mm(box.length_m) > most_mm)
    held = [need for need in needs_mm if most_mm < need <= _down_mm(max(reels, default=0.0))]
    if not held:
        return sizes
    reel = next(reel for reel in reels if _down_mm(reel) >= max(held))
    return (*sizes, (reel, price(reel)))


def _cutting(row: _Row, request: Request, limit_s: float) -> Cutting:
    """How the runs of a row are cut: by price where all sizes have one in one currency, else by number of boxes."""
    kind = f"category {row.category}{', screened' if row.screened else ''}"
    priced = _currency(row) is not None
    return cut(
        row.needs_mm,
        [BoxSize(_down_mm(size), price.amount if priced and price is not None else None) for size, price in row.sizes],
        limit_s=limit_s,
        tell=lambda line: request.tell(f"{kind}: {line}"),
        stop=request.stop,
    )


def _currency(row: _Row) -> str | None:
    """The one currency of the prices of all sizes; None where one has no price, or where there are two."""
    currencies = {None if price is None else price.currency for _, price in row.sizes}
    return currencies.pop() if len(currencies) == 1 else None


def _uncut(row: _Row) -> Bulk:
    """A row of which nothing can be cut yet."""
    return Bulk(
        category=row.category,
        screened=row.screened,
        boxes=(),
        cuts=(),
        objective="fewest boxes" if _currency(row) is None else "lowest price",
        lower_bound=None,
        price_bound=None,
        proved_optimal=None,
        unmeasured=row.unmeasured,
        too_long=row.too_long,
    )


def _bulk(row: _Row, cutting: Cutting) -> Bulk:
    boxes, cuts = [], []
    for number, box in enumerate(cutting.boxes, 1):
        size_m, price = row.sizes[box.size]
        left_mm = _down_mm(size_m) - sum(row.needs_mm[run] for run in box.runs)
        boxes.append(Box(number, size_m, left_mm / MM_PER_M, price))
        for run in sorted(box.runs, key=lambda run: (-row.needs_mm[run], run)):
            cable, run_m = row.runs[run]
            cuts.append(Cut(number, cable.name, row.needs_mm[run] / MM_PER_M, run_m))
    currency = _currency(row)
    bound = cutting.price_bound
    return _uncut(row)._replace(
        boxes=tuple(boxes),
        cuts=tuple(cuts),
        objective=cutting.objective,
        lower_bound=cutting.lower_bound,
        price_bound=None if bound is None or currency is None else Price(bound, currency),
        proved_optimal=cutting.proved,
    )


def _up_mm(length_m: float) -> int:
    """A length in whole millimetres, rounded up [mm]."""
    return ceil(round(length_m * MM_PER_M, NOISE_DIGITS))


def _down_mm(length_m: float) -> int:
    """A length in whole millimetres, rounded down [mm]."""
    return floor(round(length_m * MM_PER_M, NOISE_DIGITS))
