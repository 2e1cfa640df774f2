"""Words that every form of a bill shares: the answer, what stands beside it, and what a port or a switch has to be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator

from netaudit.listing import listed
from netaudit.model.bill import Bill, FreePorts
from netaudit.model.moving import Acceptance
from netaudit.model.specification import PortNeed, Specification
from netaudit.report.bill.bulk_words import vessel
from netaudit.report.bill.sheet import Sheet
from netaudit.report.goods_words import total_text
from netaudit.units import both_rates_text, number_text

LARGEST_PACKET = "largest packet (MTU)"
NOT_JUDGED = "Nothing is judged here: run `netaudit check` on the plan before you order."
MORE = (
    "More: --sheet cuts, labels, ports, moves, accept or addresses; --format html to print all of it, xlsx to edit it."
)


def sentence(bill: Bill) -> str:
    """The answer: how much is to be ordered, and how much of the plan is not on the bill."""
    vessels = Counter(vessel(box) for row in bill.bulk for box in row.boxes)
    ordered = _counted(
        (sum(item.order for item in bill.buy), "cord or cable", "cords and cables"),
        (vessels["box"], "box of cable", "boxes of cable"),
        (vessels["reel"], "reel of cable", "reels of cable"),
        (sum(item.order for item in bill.modules), "module", "modules"),
        (sum(item.order for item in bill.parts), "part", "parts"),
    )
    uncounted = (name for row in bill.bulk for name in row.uncounted)
    cables, modules = len({*bill.to_choose, *uncounted}), len(bill.unnamed)
    missing = _counted((cables, "cable", "cables"), (modules, "module", "modules"))
    missing_text = f"{listed(missing)} {_is(cables + modules)}" if missing else ""
    if ordered:
        more = f"; {missing_text} not on it yet" if missing else ""
        return f"Order {listed(ordered)}, spares included{more}."
    if missing:
        return f"Nothing can be ordered yet: {missing_text} not on the bill."
    return "Nothing needs to be ordered."


def _counted(*counts: tuple[int, str, str]) -> list[str]:
    """Counts in words, each with its name for one and for many; nothing is left out."""
    return [f"{count} {one if count == 1 else many}" for count, one, many in counts if count]


def _is(count: int) -> str:
    return "is" if count == 1 else "are"


def _it(names: Collection[object]) -> str:
    return "it" if len(names) == 1 else "them"


def standing(bill: Bill) -> Iterator[str]:
    """What stands beside the answer: what has to be found out first, what it costs, and what it does not say."""
    yield from _to_decide(bill)
    yield from _to_measure(bill)
    yield from _there_already(bill)
    if bill.stopped:
        yield "The search for fewer boxes was stopped: this is the best found until then."
    if bill.totals:
        yield total_text(bill.totals, bill.unpriced, complete=bill.complete)
    yield NOT_JUDGED


def _to_decide(bill: Bill) -> Iterator[str]:
    """What only a decision brings onto the bill."""
    if chosen := bill.to_choose:
        without = f"without one nothing of {_it(chosen)} is on this bill"
        yield f"Before you order, choose a category for {listed(chosen)}: {without}."
    if unnamed := bill.unnamed:
        modules = "module" if len(unnamed) == 1 else "modules"
        without = f"nothing of {_it(unnamed)} is on this bill"
        yield f"Before you order, name the {modules} of {listed(unnamed)}: {without}."
    if too_long := tuple(name for row in bill.bulk for name in row.too_long):
        are, each = ("is", "it") if len(too_long) == 1 else ("are", "each")
        yield f"{listed(too_long)} {are} longer than any box: {reel_text(each)}."


def reel_text(it: str) -> str:
    """What to do about a run that is longer than any box."""
    return f"order {it} on a reel by the metre, or shorten the run"


def _to_measure(bill: Bill) -> Iterator[str]:
    """Cables to buy of which only the length is missing: made-up ones first, then those to be cut."""
    runs = dict.fromkeys(name for row in bill.bulk for name in row.unmeasured)
    made_up = [name for name in bill.to_measure if name not in runs]
    if made_up:
        yield f"Before you order, measure {listed(made_up)}: counted, but without a length."
    if runs:
        yield f"Before you order, measure {listed(runs)}: no box is counted for {_it(runs)} yet."


def _there_already(bill: Bill) -> Iterator[str]:
    """What nobody knows about cables that need not be bought."""
    there = bill.there
    jackets = [name for name in bill.identify if name in there]
    lengths = [name for name in bill.measure if name in there]
    if jackets:
        yield f"Already there, of unknown category: read the jacket of {listed(jackets)}."
    if lengths:
        yield f"Already there, of unknown length: {listed(lengths)}; `check` wants to know it."


def nothing(sheet: Sheet) -> str:
    """What stands in place of a sheet without rows."""
    return f"{sheet.title}: nothing."


def expected_text(row: Acceptance) -> str | None:
    """The rate that a link should show, in both units, or that none does; None where it is not known."""
    if not row.shown:
        return "none"
    return None if row.expected_bit_per_s is None else both_rates_text(row.expected_bit_per_s)


def port_kind(need: PortNeed) -> str:
    """What kind of port a switch has to have: `rj45, 10 Gb/s (1250 MB/s)`, and the lanes that it has to split into."""
    rate = "rate not known" if need.rate_bit_per_s is None else both_rates_text(need.rate_bit_per_s)
    split = split_text(need)
    lanes = "" if split is None else f", split into {split}"
    return f"{need.connector or 'connector not known'}, {rate}{lanes}"


def split_text(need: PortNeed) -> str | None:
    """What a port has to split into: `4 lanes of 10 Gb/s (1250 MB/s)`; None where it need not."""
    if need.lanes <= 1:
        return None
    lane = "" if need.lane_bit_per_s is None else f" of {both_rates_text(need.lane_bit_per_s)}"
    return f"{need.lanes} lanes{lane}"


def demands(wanted: Specification) -> Iterator[tuple[str, str]]:
    """What else a switch has to have."""
    if wanted.packet_octets is not None:
        yield LARGEST_PACKET, f"at least {wanted.packet_octets} octets"
    if wanted.bonds:
        yield "bonds to terminate", str(wanted.bonds)
    if wanted.vlans:
        yield "VLANs to tell apart", ", ".join(map(str, wanted.vlans))
    if wanted.spanning_tree:
        yield "spanning tree", "needed"
    if wanted.watts is not None:
        yield "power", f"at most {number_text(wanted.watts)} W"


def free_kind(row: FreePorts) -> tuple[str, str]:
    """Connector and rate of ports that are left free; a rate that is unknown or without meaning is empty."""
    rate = "" if row.rate_bit_per_s is None else both_rates_text(row.rate_bit_per_s)
    return row.connector or "not known", rate
