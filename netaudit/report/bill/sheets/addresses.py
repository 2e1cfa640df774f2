"""The sheet of addresses: what to set on each machine, what to mount, and what to leave alone."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.bill import Bill
from netaudit.model.moving import AddressCard, Mount, Setting
from netaudit.model.vocabulary import Address
from netaudit.report.bill.settings import typed
from netaudit.report.bill.sheet import Cell, Sheet
from netaudit.report.bill.sheets.cells import text
from netaudit.report.goods_values import written

COLUMNS = text("device", "what", "port", "interface", "network", "value", "note")


def addresses_sheet(bill: Bill) -> Sheet:
    """A row for each value to type in and each storage to mount, machine by machine."""
    rows = tuple((card.device, *row) for card in bill.cards for row in _card(card))
    return Sheet("addresses", "What to set and what to mount", COLUMNS, rows)


def _card(card: AddressCard) -> Iterator[tuple[Cell, ...]]:
    """The rows of one machine, without its name."""
    for setting in card.settings:
        yield from _setting(setting)
    for mount in card.mounts:
        yield from _mount(mount)
    for seat, address in card.mounted_by:
        note = f"by {seat}" if address is not None else f"by {seat}; the plan gives no address"
        yield ("mounted at", None, None, None, written(address), note)
    yield from (("mind", None, None, None, None, sentence) for sentence in card.mind)
    yield from (("leave alone", None, None, None, None, sentence) for sentence in card.leave)


def _setting(setting: Setting) -> Iterator[tuple[Cell, ...]]:
    return (
        (one.what, setting.port.port, setting.interface, setting.network, one.value, one.note) for one in typed(setting)
    )


def _mount(mount: Mount) -> Iterator[tuple[Cell, ...]]:
    where = (None if mount.through is None else mount.through.port, None, mount.network)
    for address in mount.addresses:
        yield ("mount", *where, str(address), mount.storage)
    if not mount.addresses:
        yield ("mount", *where, None, f"{mount.storage}; {_missing(mount)}")
    yield from (_never(mount.storage, address) for address in mount.never)


def _missing(mount: Mount) -> str:
    return "no road leads there" if mount.through is None else "the plan gives no address"


def _never(storage: str, address: Address) -> tuple[Cell, ...]:
    note = f"{storage}; by this address traffic takes another road"
    return ("never mount", None, None, None, str(address), note)
