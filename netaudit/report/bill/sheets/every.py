"""Every sheet of a bill by its name, in the order in which they are needed."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from netaudit.model.bill import Bill
from netaudit.report.bill.sheet import Sheet, SheetName
from netaudit.report.bill.sheets.addresses import addresses_sheet
from netaudit.report.bill.sheets.cabling import free_sheet, labels_sheet, ports_sheet, specification_sheet
from netaudit.report.bill.sheets.cutting import cuts_sheet, lengths_sheet
from netaudit.report.bill.sheets.goods import bill_sheet
from netaudit.report.bill.sheets.moving import accept_sheet, bench_sheet, moves_sheet

BUILDERS: Mapping[SheetName, Callable[[Bill], Sheet]] = {
    "bill": bill_sheet,
    "cuts": cuts_sheet,
    "lengths": lengths_sheet,
    "labels": labels_sheet,
    "ports": ports_sheet,
    "free": free_sheet,
    "specification": specification_sheet,
    "bench": bench_sheet,
    "moves": moves_sheet,
    "accept": accept_sheet,
    "addresses": addresses_sheet,
}


def sheets(bill: Bill) -> tuple[Sheet, ...]:
    """All of them, the empty ones too."""
    return tuple(build(bill) for build in BUILDERS.values())


def sheet(bill: Bill, name: SheetName) -> Sheet:
    """One of them."""
    return BUILDERS[name](bill)
