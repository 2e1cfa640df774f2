"""Reels that are bought for runs longer than any box, and what may share them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.listing import listed
from netaudit.model.bill import Bulk
from netaudit.model.goods import Goods
from netaudit.units import length_text


def reel_remarks(rows: Sequence[Bulk]) -> Iterator[str]:
    """A sentence for each reel row: its runs stand alone on it, because the sizes that were named do not hold them.

    `rows` are those of a bill, where the reels of a kind follow its boxes.
    """
    boxes: dict[Goods, Bulk] = {}
    for row in rows:
        first = boxes.setdefault(row.kind, row)
        if first is row or not row.boxes or not first.boxes:
            continue
        names = list(dict.fromkeys(cut.cable for cut in row.cuts))
        left_m = sum(box.left_m for box in row.boxes)
        sizes_m = sorted({box.size_m for box in (*first.boxes, *row.boxes)})
        sizes = " ".join(f"--box '{length_text(size_m)}'" for size_m in sizes_m)
        are, them = ("is", "it") if len(names) == 1 else ("are", "them")
        yield (
            f"{listed(names)} {are} longer than the boxes, and a reel is bought for {them} alone, with "
            f"{length_text(left_m)} left: to let other runs use that, name every size, as {sizes}."
        )
