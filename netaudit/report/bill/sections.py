"""The bill in sections, as the text forms lay it out: rows below a head, and sentences below the rows."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple, TypeVar

from netaudit.listing import listed
from netaudit.model.bill import Bill, Bulk, Cut, FreePorts
from netaudit.model.goods import Item
from netaudit.model.specification import Specification
from netaudit.report.bill.bulk_words import kind, open_text, proof, source, uncounted, vessel_text
from netaudit.report.bill.rows import Open, groups
from netaudit.report.bill.sheet import Column
from netaudit.report.bill.sheets.cells import numbers, text
from netaudit.report.bill.words import demands, free_kind, port_kind
from netaudit.report.goods_words import NO_PRICES, price_text
from netaudit.units import length_text, sold_length_text

ORDER_COLUMNS = (*numbers("order"), *text("what"), *numbers("needed", "spare", "price of one", "in all"), *text("for"))
PRICES = slice(4, 6)
"""Where the prices stand among them."""
BOX_COLUMNS = (*numbers("holds"), *text("cut, the longest first"), *numbers("left"))
"""Behind the number of each box or reel."""
LENGTH_COLUMNS = (*text("cable"), *numbers("length"), *text("how"))
FREE_COLUMNS = (*text("device"), *numbers("free", "of"), *text("connector", "rate"))
OfRow = TypeVar("OfRow")


class Section(NamedTuple):
    """A part of the text form."""

    title: str
    columns: tuple[Column, ...] = ()
    """Without names where the rows need no head."""
    rows: tuple[tuple[str, ...], ...] = ()
    """A text for each column."""
    lines: tuple[str, ...] = ()
    """Sentences below the rows."""

    @property
    def headed(self) -> bool:
        """Whether its columns have names."""
        return any(column.name for column in self.columns)


def sections(bill: Bill) -> tuple[Section, ...]:
    """Every section that has something to tell."""
    every = (
        _to_order(bill),
        *map(_boxes, bill.bulk),
        _lengths(bill),
        _not_bought(bill),
        *map(_specification, bill.specifications),
        _free(bill.free),
        Section("To know before ordering", lines=bill.remarks),
    )
    return tuple(section for section in every if section.rows or section.lines)


def _to_order(bill: Bill) -> Section:
    """A row for each kind of goods; prices, where there is any, or why there is no total."""
    rows = tuple(_row(row) for group in groups(bill) for row in group.rows)
    priced = any(any(row[PRICES]) for row in rows)
    unpriced = () if bill.totals or not rows else (NO_PRICES,)
    if priced:
        return Section("To order", ORDER_COLUMNS, rows, unpriced)
    return Section("To order", _unpriced(ORDER_COLUMNS), tuple(map(_unpriced, rows)), unpriced)


def _unpriced(cells: tuple[OfRow, ...]) -> tuple[OfRow, ...]:
    return (*cells[: PRICES.start], *cells[PRICES.stop :])


def _row(row: Item | Open) -> tuple[str, ...]:
    if isinstance(row, Open):
        return ("open", open_text(row.bulk), "", "", "", "", listed(row.serves))
    counts = (str(row.order), row.goods.text, str(row.quantity), str(row.spares))
    return (*counts, price_text(row.price), price_text(row.cost), listed(row.serves))


def _boxes(bulk: Bulk) -> Section:
    """Which runs are cut from which box, and how good that is."""
    of_box: dict[int, list[Cut]] = {}
    for cut in bulk.cuts:
        of_box.setdefault(cut.box, []).append(cut)
    rows = tuple(
        (
            str(box.number),
            sold_length_text(box.size_m),
            ", ".join(f"{cut.cable} {length_text(cut.length_m)}" for cut in of_box.get(box.number, ())),
            length_text(box.left_m),
        )
        for box in bulk.boxes
    )
    open_runs = (f"{why}: {listed(names)}." for why, names in uncounted(bulk))
    title = f"Cut from {source(bulk)}: {kind(bulk)}, solid copper, both ends' waste included"
    return Section(title, (*text(vessel_text(bulk)), *BOX_COLUMNS), rows, (*proof(bulk), *open_runs))


def _lengths(bill: Bill) -> Section:
    rows = tuple((run.cable, length_text(run.length_m), run.how) for run in bill.lengths)
    return Section("Lengths worked out from racks and routes", LENGTH_COLUMNS, rows)


def _not_bought(bill: Bill) -> Section:
    named = (("already installed", bill.installed), ("already owned", bill.owned))
    return Section("Not bought", text("", ""), tuple((what, listed(names)) for what, names in named if names))


def _specification(wanted: Specification) -> Section:
    """What to look for in a switch that is not chosen yet."""
    ports = ((f"{need.quantity} x", port_kind(need), listed(need.ports)) for need in wanted.needs)
    others = ((what, value, "") for what, value in demands(wanted))
    return Section(f"{wanted.device}: what to look for", text("", "", ""), (*ports, *others), wanted.notes)


def _free(rows: Iterable[FreePorts]) -> Section:
    cells = tuple((row.device, str(row.free), str(row.of), *free_kind(row)) for row in rows)
    return Section("Ports left free", FREE_COLUMNS, cells)
