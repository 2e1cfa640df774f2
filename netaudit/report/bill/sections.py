"""The bill in sections, as every text form tells it: a sentence first, then what to do in the order of doing it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from netaudit.model.bill import Bill, Bulk, Cut, FreePorts, PortNeed, Specification
from netaudit.model.goods import Item
from netaudit.model.plan import Price
from netaudit.report.goods_words import price_text, total_text
from netaudit.report.words import listed
from netaudit.units import both_rates_text, length_text, number_text


class Section(NamedTuple):
    """A part of the text form."""

    title: str
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    lines: tuple[str, ...] = ()
    """Sentences below the rows."""


def sentence(bill: Bill) -> str:
    """The answer: how much is to be ordered."""
    counts = (
        (sum(item.order for item in bill.buy), "cord or cable", "cords and cables"),
        (sum(len(row.boxes) for row in bill.bulk), "box of cable", "boxes of cable"),
        (sum(item.order for item in bill.modules), "module", "modules"),
        (sum(item.order for item in bill.parts), "part", "parts"),
    )
    told = [f"{count} {one if count == 1 else many}" for count, one, many in counts if count]
    if told:
        return f"Order {listed(told)}, spares included."
    if bill.measure or bill.identify:
        return "Nothing can be ordered yet."
    return "Nothing needs to be ordered."


def standing(bill: Bill) -> Iterator[str]:
    """What stands beside the answer: what has to be found out first, and what it costs."""
    there = {*bill.installed, *bill.owned}
    jackets = [name for name in bill.identify if name in there]
    choices = [name for name in bill.identify if name not in there]
    wanted = [name for name in bill.measure if name not in there]
    later = [name for name in bill.measure if name in there]
    if choices:
        yield f"Before you order, choose a category for {listed(choices)}: without one nothing of it is on this bill."
    if wanted:
        yield f"Before you order, measure {listed(wanted)}: counted, but without a length."
    if jackets:
        yield f"Already there, of unknown category: read the jacket of {listed(jackets)}."
    if later:
        yield f"Already there, of unknown length: {listed(later)}; `check` wants to know it."
    if bill.stopped:
        yield "The search for fewer boxes was stopped: this is the best found until then."
    if bill.totals:
        yield total_text(bill.totals, bill.unpriced)


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
    rows = [*map(_item_row, (*bill.buy,)), *_box_rows(bill.bulk), *map(_item_row, (*bill.modules, *bill.parts))]
    head = ("order", "what", "needed", "spare", "price of one", "in all", "for")
    priced = any(row[4] for row in rows)
    kept = [place for place in range(len(head)) if priced or place not in (4, 5)]
    return (
        Section(
            "To order",
            tuple(head[place] for place in kept),
            tuple(tuple(row[place] for place in kept) for row in rows),
            ()
            if bill.totals
            else ("No prices were given, so there is no total: fill in --prices FILE, or `stock` in the plan.",),
        )
        if rows
        else Section("To order")
    )


def _item_row(item: Item) -> tuple[str, ...]:
    numbers = (str(item.order), item.goods.text, str(item.quantity), str(item.spares))
    return (*numbers, price_text(item.price), price_text(item.cost), listed(item.serves))


def _box_rows(bulks: Iterable[Bulk]) -> Iterator[tuple[str, ...]]:
    """A row for each size of box of each kind of cable."""
    for bulk in bulks:
        ordered = sorted(bulk.boxes, key=lambda box: -box.size_m)
        for (size_m, price), boxes in groupby(ordered, key=lambda box: (box.size_m, box.price)):
            numbers = {box.number for box in boxes}
            serves = tuple(cut.cable for cut in bulk.cuts if cut.box in numbers)
            what = f"box of cable {kind(bulk)}, {length_text(size_m)}"
            yield (
                str(len(numbers)), what, str(len(numbers)), "0",
                price_text(price), price_text(_times(price, len(numbers))), listed(serves),
            )  # fmt: skip


def _times(price: Price | None, count: int) -> Price | None:
    return None if price is None else price._replace(amount=price.amount * count)


def kind(bulk: Bulk) -> str:
    """The kind of solid cable: `6A, screened`."""
    return f"{bulk.category}, screened" if bulk.screened else bulk.category


def _boxes(bulk: Bulk) -> Section:
    """Which runs are cut from which box, and how good that is."""
    of_box: dict[int, list[Cut]] = {}
    for cut in bulk.cuts:
        of_box.setdefault(cut.box, []).append(cut)
    rows = tuple(
        (
            str(box.number),
            length_text(box.size_m),
            ", ".join(f"{cut.cable} {length_text(cut.length_m)}" for cut in of_box.get(box.number, ())),
            length_text(box.left_m),
        )
        for box in bulk.boxes
    )
    return Section(
        f"Cut from boxes of {kind(bulk)}, solid copper, both ends' waste included",
        ("box", "holds", "cut, the longest first", "left"),
        rows,
        (*proof(bulk), *_uncounted(bulk)),
    )


def proof(bulk: Bulk) -> Iterator[str]:
    """Whether fewer boxes, or cheaper ones, would do."""
    if bulk.proved_optimal and bulk.objective == "lowest price":
        yield "No other choice of boxes costs less: proved."
    elif bulk.proved_optimal:
        yield "Fewer boxes cannot do: proved." if len(bulk.boxes) > 1 else "One box holds them all."
    elif bulk.boxes and bulk.objective == "lowest price":
        bound = "" if bulk.price_bound is None else f"; none can cost less than {price_text(bulk.price_bound)}"
        yield f"Whether another choice of boxes costs less is not proved{bound}."
    elif bulk.boxes:
        yield f"Not proved to be the fewest: {len(bulk.boxes)} boxes, and at least {bulk.lower_bound} are needed."


def _uncounted(bulk: Bulk) -> Iterator[str]:
    """Which runs the boxes do not count."""
    if bulk.unmeasured:
        yield f"Not counted, because nobody has measured them: {listed(bulk.unmeasured)}."
    if bulk.too_long:
        yield f"Longer than any box that is sold, and cable in a wall is never joined: {listed(bulk.too_long)}."


def _lengths(bill: Bill) -> Section:
    rows = tuple((run.cable, length_text(run.length_m), run.how) for run in bill.lengths)
    return Section("Lengths worked out from racks and routes", ("cable", "length", "how"), rows)


def _not_bought(bill: Bill) -> Section:
    named = (("already installed", bill.installed), ("already owned", bill.owned))
    return Section("Not bought", (), tuple((what, listed(names)) for what, names in named if names))


def _specification(wanted: Specification) -> Section:
    """What to look for in a switch that is not chosen yet."""
    rows = [(f"{need.quantity} x", _port(need), listed([str(port) for port in need.ports])) for need in wanted.needs]
    facts = (
        ("packets", "" if wanted.packet_octets is None else f"at least {wanted.packet_octets} octets"),
        ("bonds", str(wanted.bonds or "")),
        ("VLANs", ", ".join(map(str, wanted.vlans))),
        ("spanning tree", "yes: it stands in a ring" if wanted.spanning_tree else ""),
        ("power", "" if wanted.watts is None else f"at most {number_text(wanted.watts)} W"),
    )
    rows.extend((what, value, "") for what, value in facts if value)
    return Section(f"{wanted.device}: what to look for", (), tuple(rows), wanted.notes)


def _port(need: PortNeed) -> str:
    rate = "rate not known" if need.rate_bit_per_s is None else both_rates_text(need.rate_bit_per_s)
    return f"{need.connector or 'connector not known'}, {rate}"


def _free(rows: Iterable[FreePorts]) -> Section:
    return Section(
        "Ports left free",
        ("device", "free", "of", "connector", "rate"),
        tuple(
            (
                row.device,
                str(row.free),
                str(row.of),
                row.connector or "not known",
                "" if row.rate_bit_per_s is None else both_rates_text(row.rate_bit_per_s),
            )
            for row in rows
        ),
    )
