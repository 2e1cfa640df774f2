"""The sheets for whoever holds the tape and the cutter: cuts box by box, and lengths that are still open."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.bill import Bill, Bulk
from netaudit.report.bill.sheet import Cell, Sheet
from netaudit.report.bill.sheets.cells import numbers, screen, text
from netaudit.report.bill.words import reel_text
from netaudit.report.goods_values import rounded_m

CUT_COLUMNS = (
    *numbers("box", "size [m]"),
    *text("category", "screened", "cable"),
    *numbers("run [m]", "cut [m]", "left in box [m]"),
)
LENGTH_COLUMNS = (*text("cable"), *numbers("length [m]"), *text("state", "how"))
MEASURE = "measure it along its way, from port to port"
IDENTIFY = "read the category printed on its jacket, or choose one"


def cuts_sheet(bill: Bill) -> Sheet:
    """A row for each cut, with what is left in the box after it, and one for each run that no box counts."""
    return Sheet(
        "cuts", "What to cut from which box", CUT_COLUMNS, tuple(row for bulk in bill.bulk for row in _cuts(bulk))
    )


def _cuts(bulk: Bulk) -> Iterator[tuple[Cell, ...]]:
    sizes = {box.number: box.size_m for box in bulk.boxes}
    for cut in bulk.cuts:
        yield (
            cut.box,
            rounded_m(sizes[cut.box]),
            bulk.category,
            screen(bulk.screened),
            cut.cable,
            rounded_m(cut.run_m),
            rounded_m(cut.length_m),
            rounded_m(cut.left_m),
        )
    for cable in bulk.uncounted:
        yield (None, None, bulk.category, screen(bulk.screened), cable, None, None, None)


def lengths_sheet(bill: Bill) -> Sheet:
    """Cables whose length was worked out, and those that somebody has to look at first."""
    rows: tuple[tuple[Cell, ...], ...] = (
        *((run.cable, rounded_m(run.length_m), "worked out", run.how) for run in bill.lengths),
        *((cable, None, "to measure", MEASURE) for cable in bill.measure),
        *((cable, None, "to identify", IDENTIFY) for cable in bill.identify),
        *((cable, None, "longer than any box", reel_text("it")) for bulk in bill.bulk for cable in bulk.too_long),
    )
    return Sheet("lengths", "Lengths worked out, to measure and to identify", LENGTH_COLUMNS, rows)
