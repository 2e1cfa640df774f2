"""The sheets of ports and labels: what goes where, what is written on it, and what stays free."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.bill import Bill
from netaudit.model.specification import Specification
from netaudit.report.bill.sheet import Cell, Sheet
from netaudit.report.bill.sheets.cells import RATE_COLUMNS, both_rates, joined, numbers, rate_cells, text
from netaudit.report.bill.words import LARGEST_PACKET, split_text
from netaudit.report.goods_values import written

LABEL_COLUMNS = text("cable", "end", "port", "far", "text")
PORT_COLUMNS = (
    *text("device", "port", "connector", "module", "cable", "far", "peer", "network", "address"),
    *RATE_COLUMNS,
)
FREE_COLUMNS = (*text("device", "connector"), *RATE_COLUMNS, *numbers("free", "of"))
SPECIFICATION_COLUMNS = (
    *text("device", "what"),
    *numbers("at least", "at most"),
    *text("unit", "connector", "rate", "split into", "note"),
)


def labels_sheet(bill: Bill) -> Sheet:
    """A row for each label, ready for a label printer."""
    rows = tuple((label.cable, label.end, str(label.port), joined(label.far), label.text) for label in bill.labels)
    return Sheet("labels", "Labels, one for each end", LABEL_COLUMNS, rows)


def ports_sheet(bill: Bill) -> Sheet:
    """A row for each port of each device."""
    rows = tuple(
        (
            row.port.device,
            row.port.port,
            row.connector,
            row.module,
            row.cable,
            written(row.far),
            written(row.peer),
            row.network,
            joined(row.addresses),
            *rate_cells(row.rate_bit_per_s),
        )
        for row in bill.ports
    )
    return Sheet("ports", "Port map", PORT_COLUMNS, rows)


def free_sheet(bill: Bill) -> Sheet:
    """A row for each kind of port of each device."""
    rows = tuple((row.device, row.connector, *rate_cells(row.rate_bit_per_s), row.free, row.of) for row in bill.free)
    return Sheet("free", "Ports left free", FREE_COLUMNS, rows)


def specification_sheet(bill: Bill) -> Sheet:
    """What to look for in each switch that is not chosen yet, a row for each demand."""
    rows = tuple(row for wanted in bill.specifications for row in _demands(wanted))
    return Sheet("specification", "What to look for in a switch", SPECIFICATION_COLUMNS, rows)


def _demands(wanted: Specification) -> Iterator[tuple[Cell, ...]]:
    device = wanted.device
    for need in wanted.needs:
        kind = (need.connector, both_rates(need.rate_bit_per_s), split_text(need))
        yield (device, "ports", need.quantity, None, "ports", *kind, joined(need.ports))
    if wanted.packet_octets is not None:
        yield (device, LARGEST_PACKET, wanted.packet_octets, None, "octets", None, None, None, None)
    if wanted.bonds:
        yield (device, "bonds", wanted.bonds, None, "bonds", None, None, None, None)
    if wanted.vlans:
        vlans = f"tags {joined(wanted.vlans)}"
        yield (device, "VLANs", len(wanted.vlans), None, "VLANs", None, None, None, vlans)
    if wanted.spanning_tree:
        yield (device, "spanning tree", None, None, None, None, None, None, "needed")
    if wanted.watts is not None:
        yield (device, "power drawn", None, wanted.watts, "W", None, None, None, None)
    yield from ((device, "note", None, None, None, None, None, None, note) for note in wanted.notes)
