"""Bulk cable: the runs between passive ports, cut from boxes and reels and never joined."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil, floor
from typing import NamedTuple

from netaudit.calculations.cutting import BoxSize, Cutting, cut
from netaudit.model.bill import Box, Bulk, Cut
from netaudit.model.goods import Goods
from netaudit.model.plan import Cable, Category, Price
from netaudit.ordering.request import Request
from netaudit.ordering.shop.stock import Stock
from netaudit.standards.sold import sold_boxes
from netaudit.units import MM_PER_M

NOISE_DIGITS = 6
"""Decimals of a millimetre beyond which a number is only the noise of binary fractions."""


class _Run(NamedTuple):
    """A run that somebody measured."""

    cable: str
    length_m: float
    """Its own length [m]."""
    need_mm: int
    """What it takes off a box, waste included [mm]."""


class _Row(NamedTuple):
    """Runs of one kind of cable that are cut from the same sizes, before anything is cut."""

    category: Category
    screened: bool
    runs: tuple[_Run, ...]
    """Measured runs that some box holds."""
    sizes: tuple[tuple[float, Price | None], ...]
    """Sizes of boxes to cut from [m], with the price of one."""
    unmeasured: tuple[str, ...]
    too_long: tuple[str, ...]


def bulk(cables: Sequence[Cable], stock: Stock, request: Request) -> tuple[tuple[Bulk, ...], bool]:
    """A row for each category and screen, in the order of their first cables, and whether somebody stopped the search.

    Runs that none of the sizes holds are cut from reels, where one does: they are a row of their own, so that all
    others still come from the sizes that the plan or the caller names. Each run takes its length and the waste at both
    ends off one box, in whole millimetres. The time allowed is shared by the rows according to how many runs each has.
    """
    kinds: dict[tuple[Category, bool], list[Cable]] = {}
    for cable in cables:
        kinds.setdefault((cable.category, cable.screened), []).append(cable)
    rows = [row for members in kinds.values() for row in _rows(members, stock, request)]
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
    request.searched()
    return tuple(found), stopped


def _rows(cables: Sequence[Cable], stock: Stock, request: Request) -> Iterator[_Row]:
    """The runs of one kind: those that the sizes hold, then those that need a reel.

    What no row counts stands in the first one.
    """
    category, screened = cables[0].category, cables[0].screened
    sizes = stock.box_sizes(category, screened, request.boxes_m)
    most_mm = max(_down_mm(size) for size, _ in sizes)
    runs = tuple(_measured(cables, request.waste_m))
    longer = [run for run in runs if run.need_mm > most_mm]
    reels_m = () if request.boxes_m else _reels_m([run.need_mm for run in longer])
    reach_mm = _down_mm(reels_m[-1]) if reels_m else most_mm
    row = _Row(
        category=category,
        screened=screened,
        runs=tuple(run for run in runs if run.need_mm <= most_mm),
        sizes=sizes,
        unmeasured=tuple(cable.name for cable in cables if cable.length_m is None),
        too_long=tuple(run.cable for run in longer if run.need_mm > reach_mm),
    )
    if not reels_m:
        yield row
        return
    reels = row._replace(
        runs=tuple(run for run in longer if run.need_mm <= reach_mm),
        sizes=tuple(
            (size_m, stock.price(Goods("box", category=category, screened=screened, length_m=size_m)))
            for size_m in reels_m
        ),
    )
    if row.runs:
        yield row
        yield reels._replace(unmeasured=(), too_long=())
    else:
        yield reels


def _measured(cables: Iterable[Cable], waste_m: float) -> Iterator[_Run]:
    for cable in cables:
        if cable.length_m is not None:
            yield _Run(cable.name, cable.length_m, _up_mm(cable.length_m + 2 * waste_m))


def _reels_m(needs_mm: Sequence[int]) -> tuple[float, ...]:
    """The usual reels that hold any of some runs, the least first [m].

    They end with the least that holds the longest run which any reel can; empty where no reel holds a run.
    """
    reels = sorted(box.length_m for box in sold_boxes() if box.kind == "reel")
    held_mm = [need for need in needs_mm if need <= _down_mm(reels[-1])]
    if not held_mm:
        return ()
    last = next(reel for reel in reels if _down_mm(reel) >= max(held_mm))
    return tuple(reel for reel in reels if reel <= last and _down_mm(reel) >= min(held_mm))


def _cutting(row: _Row, request: Request, limit_s: float) -> Cutting:
    """How the runs of a row are cut: by price where all sizes have one in one currency, else by number of boxes."""
    kind = f"category {row.category}{', screened' if row.screened else ''}"
    priced = _currency(row) is not None
    return cut(
        [run.need_mm for run in row.runs],
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
        left_mm = _down_mm(size_m)
        for place in sorted(box.runs, key=lambda place: (-row.runs[place].need_mm, place)):
            run = row.runs[place]
            left_mm -= run.need_mm
            cuts.append(Cut(number, run.cable, run.need_mm / MM_PER_M, run.length_m, left_mm / MM_PER_M))
        boxes.append(Box(number, size_m, left_mm / MM_PER_M, price))
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
