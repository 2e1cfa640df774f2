"""The bus behind an adapter, read from the words that a system has for it."""

from __future__ import annotations

import re

from netaudit.calculations.buses import Usable, usable_bit_per_s
from netaudit.model.machine_state import AdapterBus
from netaudit.model.plan import Bus

_PCIE = re.compile(r"(?:pcie|pci express) (?P<generation>[1-9]) ?x(?P<lanes>[1-9][0-9]?)", re.IGNORECASE)
_THUNDERBOLT = re.compile(r"thunderbolt (?P<generation>[1-9])", re.IGNORECASE)
_USB = re.compile(r"usb (?P<rate>[0-9]{1,4}(?:\.[0-9]{1,3})?) ?(?P<unit>[GM])(?:b/s|bps)?", re.IGNORECASE)
_UNITS = {"G": 1_000_000_000, "M": 1_000_000}


def bus_of(text: str) -> Bus | None:
    """The bus that a text names: `pcie 3 x1`, `PCI Express 3 x1`, `thunderbolt 3`, `usb 480M`; None for any other."""
    pcie, thunderbolt, usb = (form.fullmatch(text.strip()) for form in (_PCIE, _THUNDERBOLT, _USB))
    if pcie is not None:
        return Bus("pcie", generation=int(pcie["generation"]), lanes=int(pcie["lanes"]))
    if thunderbolt is not None:
        return Bus("thunderbolt", generation=int(thunderbolt["generation"]))
    if usb is not None:
        return Bus("usb", rate_bit_per_s=round(float(usb["rate"]) * _UNITS[usb["unit"].upper()]))
    return None


def usable(bus: AdapterBus) -> Usable | None:
    """What files can count on over a bus; None where no table has it."""
    known = bus_of(bus.text)
    return None if known is None else usable_bit_per_s(known)


def most_bit_per_s(bus: AdapterBus) -> int | None:
    """What a bus carries at the most [bit/s]: by the tables, else what the system says, else the bare signal of USB."""
    known, table = bus_of(bus.text), usable(bus)
    if table is not None:
        return table.rate_bit_per_s
    if bus.rate_bit_per_s is not None:
        return bus.rate_bit_per_s
    return None if known is None else known.rate_bit_per_s
