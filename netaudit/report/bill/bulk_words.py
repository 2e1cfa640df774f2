"""Words of solid cable for every form of a bill: what it is cut from, how good that is, and what is left out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from netaudit.listing import listed
from netaudit.model.bill import Box, Bulk
from netaudit.model.goods import Goods
from netaudit.report.goods_words import price_text
from netaudit.units import length_text, sold_length_text

Vessel = Literal["box", "reel"]
MANY: dict[Vessel, str] = {"box": "boxes", "reel": "reels"}


def vessel(box: Box) -> Vessel:
    """Whether cable comes in a box or on a reel."""
    return "reel" if Goods("box", length_m=box.size_m).on_a_reel else "box"


def vessel_text(bulk: Bulk) -> str:
    """The word for any one that is cut from: `box`, `reel`, `box or reel`."""
    return " or ".join(_vessels(bulk))


def _vessels(bulk: Bulk) -> tuple[Vessel, ...]:
    """Sorts of vessels that are cut from; where nothing is cut yet, people look for a box."""
    return tuple(dict.fromkeys(map(vessel, bulk.boxes))) or ("box",)


def _many(bulk: Bulk) -> str:
    """The word for all of them: `boxes`, `reels`, `boxes and reels`."""
    return " and ".join(MANY[each] for each in _vessels(bulk))


def kind(bulk: Bulk) -> str:
    """The kind of solid cable: `6A, screened`."""
    return f"{bulk.category}, screened" if bulk.screened else bulk.category


def source(bulk: Bulk) -> str:
    """What runs are cut from: `boxes of 304.8 m (1000 ft) and 100 m`.

    It tells apart the rows of one kind of cable: runs that no box holds come from reels longer than any of these.
    """
    sizes = dict.fromkeys(sold_length_text(box.size_m) for box in bulk.boxes)
    return f"{_many(bulk)} of {listed(sizes)}" if sizes else _many(bulk)


def proof(bulk: Bulk) -> Iterator[str]:
    """Whether fewer boxes, cheaper ones or a shorter one would do."""
    many, count = _many(bulk), len(bulk.boxes)
    if bulk.proved_optimal and bulk.objective == "lowest price":
        yield f"No other choice of {many} costs less: proved."
    elif bulk.proved_optimal:
        yield f"Fewer {many} cannot do: proved." if count > 1 else f"One {vessel_text(bulk)} holds them all."
    elif bulk.boxes and bulk.objective == "lowest price":
        bound = "" if bulk.price_bound is None else f"; none can cost less than {price_text(bulk.price_bound)}"
        yield f"Whether another choice of {many} costs less is not proved{bound}."
    elif bulk.boxes:
        counted = f"1 {vessel_text(bulk)}" if count == 1 else f"{count} {many}"
        least = bulk.lower_bound or 1
        yield f"Not proved to be the fewest: {counted}, and at least {least} {'is' if least == 1 else 'are'} needed."
    if (over := bulk.surplus) is not None:
        sizes = f"--box '{length_text(over.size_m)}' --box '{length_text(over.enough_m)}'"
        left = length_text(over.left_m)
        yield f"{left} stay over: if the shop has shorter {many}, name all its sizes, such as {sizes}."


def uncounted(bulk: Bulk) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Why no box counts some runs, and which."""
    if bulk.unmeasured:
        yield "Not counted, because not measured yet", bulk.unmeasured
    if bulk.too_long:
        yield "Longer than any box that is sold, and cable in a wall is never joined", bulk.too_long


def open_text(bulk: Bulk) -> str:
    """What stands in the order for runs that no box counts."""
    return f"cable {kind(bulk)}, for runs that no box counts"
