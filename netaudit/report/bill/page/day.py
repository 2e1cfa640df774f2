"""Moving day on the page: plugs in their order, the port map, the acceptance sheet and the address cards."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from netaudit.model.bill import Bill
from netaudit.model.moving import Acceptance, AddressCard, Label, PortRow, Setting, Step
from netaudit.model.place import PortRef
from netaudit.model.vocabulary import Address
from netaudit.report.bill.settings import Typed, typed
from netaudit.report.bill.unbroken import unbroken
from netaudit.report.bill.words import expected_text
from netaudit.units import both_rates_text, rate_text


class Steps(NamedTuple):
    """All plugs to pull, or all to push."""

    title: str
    done: str
    """What is ticked off."""
    groups: tuple[tuple[str, tuple[Step, ...]], ...]


class DayPart(NamedTuple):
    """Moving day."""

    before: tuple[str, ...]
    """What to do before the first plug is pulled."""
    steps: tuple[Steps, ...]
    after: tuple[str, ...]
    """What to do when all is plugged."""


class LabelsPart(NamedTuple):
    """Where the labels are."""

    labels: int
    cables: int
    """Cables that they are for."""


class MapRow(NamedTuple):
    """A port, or free ports alike that follow on one another."""

    port: str
    last: str | None
    """Last of the free ports that the row stands for; None where it stands for one."""
    kind: str
    """Connector and module."""
    cable: str | None
    free: int
    """Free ports that the row stands for; 0 where something is plugged in or reached by radio."""
    far: PortRef | None
    peer: PortRef | None
    """None where it is the far port itself."""
    network: str | None
    addresses: tuple[Address, ...]
    rate: str


class DevicePorts(NamedTuple):
    """A device with all its ports."""

    device: str
    rows: tuple[MapRow, ...]


class ExpectedRow(NamedTuple):
    """A cable to accept."""

    cable: str
    near: PortRef
    far: tuple[PortRef, ...]
    rate: str
    where: str


class MapPart(NamedTuple):
    """The port map."""

    rates: str
    """Each link rate on it, in bits and in bytes."""
    devices: tuple[DevicePorts, ...]


class SettingPart(NamedTuple):
    """What is typed in at one port."""

    setting: Setting
    lines: tuple[Typed, ...]


class CardPart(NamedTuple):
    """An address card."""

    card: AddressCard
    settings: tuple[SettingPart, ...]


def day_part(bill: Bill) -> DayPart | None:
    """What to do before the move, during it and after it; None where nothing is."""
    part = DayPart(bill.before_moving, tuple(_steps(bill)), bill.after_moving)
    return part if any(part) else None


def _steps(bill: Bill) -> Iterator[Steps]:
    """What to pull and what to push, in order."""
    for title, done, steps in (("Unplug", "out", bill.unplug), ("Plug", "in", bill.plug)):
        if steps:
            grouped = groupby(steps, key=lambda step: step.group)
            yield Steps(title, done, tuple((group, tuple(rows)) for group, rows in grouped))


def labels_part(labels: Sequence[Label]) -> LabelsPart | None:
    """How many labels there are; None where there is none."""
    return LabelsPart(len(labels), len({label.cable for label in labels})) if labels else None


def map_part(ports: Sequence[PortRow]) -> MapPart | None:
    """The ports of each device, in plan order; None where there is none."""
    if not ports:
        return None
    texts = {rate: rate_text(rate) for rate in {row.rate_bit_per_s for row in ports} if rate is not None}
    of_device: dict[str, list[PortRow]] = {}
    for row in ports:
        of_device.setdefault(row.port.device, []).append(row)
    devices = tuple(DevicePorts(device, tuple(_map_rows(rows, texts))) for device, rows in of_device.items())
    return MapPart(_rates_line(texts), devices)


def _map_rows(ports: Iterable[PortRow], texts: Mapping[int, str]) -> Iterator[MapRow]:
    """The ports of a device; of free ports alike only the first and the last are named."""
    for free, rows in groupby(ports, key=_alike_if_free):
        if free is None:
            yield from (_map_row(row, texts) for row in rows)
            continue
        first, *others = rows
        last = others[-1].port.port if others else None
        yield _map_row(first, texts)._replace(last=last, free=1 + len(others))


def _alike_if_free(row: PortRow) -> tuple[str | None, ...] | None:
    """What free ports in one row have in common; None where the port is not free."""
    used = row.cable is not None or row.peer is not None or row.connector == "radio"
    return None if used or row.addresses or row.rate_bit_per_s is not None else (row.connector, row.module, row.network)


def _map_row(row: PortRow, texts: Mapping[int, str]) -> MapRow:
    kind = " ".join(part for part in (row.connector, row.module) if part is not None)
    peer = None if row.peer == row.far else row.peer
    rate = "" if row.rate_bit_per_s is None else texts[row.rate_bit_per_s]
    return MapRow(row.port.port, None, kind, row.cable, 0, row.far, peer, row.network, row.addresses, rate)


def _rates_line(rates: Iterable[int]) -> str:
    """Link rates in both units, the highest first: `10 Gb/s (1250 MB/s), 1 Gb/s (125 MB/s)`."""
    return ", ".join(map(both_rates_text, sorted(rates, reverse=True)))


def expected_rows(rows: Iterable[Acceptance]) -> Iterator[ExpectedRow]:
    """Every cable with the rate that its link should show."""
    for row in rows:
        rate = unbroken(expected_text(row) or "")
        yield ExpectedRow(row.cable, row.from_port, row.to_ports, rate, row.where)


def card_parts(cards: Iterable[AddressCard]) -> Iterator[CardPart]:
    """Every machine with what is typed in there."""
    for card in cards:
        yield CardPart(card, tuple(SettingPart(setting, tuple(typed(setting))) for setting in card.settings))
