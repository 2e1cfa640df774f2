"""`system_profiler -json`: the bus behind a network card, and the rate of a radio.

Keys: as published in captures; the command's source is closed. Until macOS 15 USB stands under SPUSBDataType, from 26
on under SPUSBHostDataType, and the other one is empty; both are asked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.machine.parse.macos.words import json_of, list_of, mapping_of, number_of, rate_bit_per_s, text_of
from netaudit.model.machine_state import AdapterBus

WIRED_TYPES = (
    "SPEthernetDataType", "SPUSBDataType", "SPUSBHostDataType", "SPPCIDataType", "SPThunderboltDataType",
)  # fmt: skip
RADIO_TYPES = ("SPAirPortDataType",)
_USB_SPEEDS = {
    "low_speed": "1.5M", "full_speed": "12M", "high_speed": "480M", "super_speed": "5G", "super_speed_plus": "10G",
    "super_speed_plus_by_2": "20G",
}  # fmt: skip
"""Signalling rates: USB 3.2 specification, section 3.1."""
_PCIE_GENERATIONS = {"2.5": 1, "5.0": 2, "8.0": 3, "16.0": 4, "32.0": 5}
"""GT/s to generation: PCI Express Base Specification."""
_GIGATRANSFERS = re.compile(r"([0-9.]{1,5}) GT/s")
_WIDTH = re.compile(r"x([0-9]{1,2})")
_HEX = re.compile(r"0x[0-9a-fA-F]{1,8}")
_THUNDERBOLT = {"thunderbolt_three": "thunderbolt 3", "usb_four": "thunderbolt 4", "usb_four_v2": "thunderbolt 5"}
_AS_WIDE_AS_THE_TUNNEL = frozenset(f"pcie {generation} x{lanes}" for generation in (3, 4, 5) for lanes in (4, 8, 16))
_DEEPEST = 64


class Card(NamedTuple):
    """A network card that the system lists."""

    interface: str
    product: str | None
    best_bit_per_s: int | None
    """The fastest it could do, never what it agreed on [bit/s]."""
    bus: AdapterBus | None


def parse_cards(text: str) -> tuple[Card, ...]:
    """Network cards with the bus that each hangs on; raises AnswerError where the answer is no JSON."""
    answer = mapping_of(json_of(text, "system_profiler"))
    return tuple(_cards(answer))


def parse_radio_rate(text: str, interface: str) -> int | None:
    """The rate that a radio sends at now [bit/s]; raises AnswerError where the answer is no JSON."""
    answer = mapping_of(json_of(text, "system_profiler"))
    for entry in _walk(answer.get("SPAirPortDataType")):
        for radio in map(mapping_of, list_of(entry.get("spairport_airport_interfaces"))):
            network = mapping_of(radio.get("spairport_current_network_information"))
            rate_mbit_per_s = number_of(network.get("spairport_network_rate"))
            if radio.get("_name") == interface and rate_mbit_per_s:
                return rate_mbit_per_s * 10**6
    return None


def _cards(answer: Mapping[str, object]) -> Iterator[Card]:
    for card in _walk(answer.get("SPEthernetDataType")):
        interface = text_of(card.get("spethernet_BSD_Device_Name")) or text_of(card.get("spethernet_BSD_Name"))
        if interface is not None:
            best = re.fullmatch(r"ethernet_speed_([0-9]{1,6})", text_of(card.get("spethernet_max_link_speed")) or "")
            product = text_of(card.get("spethernet_product_name")) or text_of(card.get("_name"))
            bus = _usb(card, answer) or _pcie(card, answer)
            yield Card(interface, product, int(best[1]) * 10**6 or None if best else None, bus)


def _usb(card: Mapping[str, object], answer: Mapping[str, object]) -> AdapterBus | None:
    """The USB speed: from the card's own row, else from the one USB device of its maker and product."""
    speed = _USB_SPEEDS.get(text_of(card.get("spethernet_usb_device_speed")) or "")
    ids = (_hex(card.get("spethernet_vendor-id")), _hex(card.get("spethernet_product-id")))
    if speed is None and None not in ids:
        speeds = {found for identity, found in _usb_devices(answer) if identity == ids}
        speed = speeds.pop() if len(speeds) == 1 else None
    return None if speed is None else AdapterBus(f"usb {speed}")


def _usb_devices(answer: Mapping[str, object]) -> Iterator[tuple[tuple[int | None, int | None], str]]:
    for device in _walk(answer.get("SPUSBDataType")):
        speed = _USB_SPEEDS.get(text_of(device.get("device_speed")) or "")
        if speed:
            yield (_hex(device.get("vendor_id")), _hex(device.get("product_id"))), speed
    for device in _walk(answer.get("SPUSBHostDataType")):
        rate = rate_bit_per_s(text_of(device.get("USBDeviceKeyLinkSpeed")) or "")
        if rate:
            speed = f"{rate / 10**9:g}G" if rate >= 10**9 else f"{rate / 10**6:g}M"
            yield (_hex(device.get("USBDeviceKeyVendorID")), _hex(device.get("USBDeviceKeyProductID"))), speed


def _pcie(card: Mapping[str, object], answer: Mapping[str, object]) -> AdapterBus | None:
    """The PCI Express link: from the card's own row, else from the one slot that holds a card of its kind."""
    link = _lanes(card, "spethernet_pcie_link-speed", "spethernet_pcie_link-width")
    ids = (_hex(card.get("spethernet_vendor-id")), _hex(card.get("spethernet_device-id")))
    slots = [
        slot for slot in _walk(answer.get("SPPCIDataType"))
        if None not in ids and ids == (_hex(slot.get("sppci_vendor-id")), _hex(slot.get("sppci_device-id")))
    ]  # fmt: skip
    if len(slots) != 1:
        return link
    link = link or _lanes(slots[0], "sppci_link-speed", "sppci_link-width")
    outside = (text_of(slots[0].get("sppci_slot_name")) or "").startswith("Thunderbolt@")
    return _through_thunderbolt(link, answer) if link and outside else link


def _through_thunderbolt(link: AdapterBus, answer: Mapping[str, object]) -> AdapterBus:
    """The bus that decides for a card outside: the Thunderbolt that all devices there run, unless its slot is narrower.

    Thunderbolt tunnels four lanes of PCI Express 3, or better.
    """
    modes = {_THUNDERBOLT.get(str(each.get("mode_key"))) for each in _walk(answer.get("SPThunderboltDataType"))}
    names = [mode for mode in modes if mode is not None]
    return AdapterBus(names[0]) if len(names) == 1 and link.text in _AS_WIDE_AS_THE_TUNNEL else link


def _lanes(row: Mapping[str, object], speed_key: str, width_key: str) -> AdapterBus | None:
    speed = _GIGATRANSFERS.fullmatch(text_of(row.get(speed_key)) or "")
    width = _WIDTH.fullmatch(text_of(row.get(width_key)) or "")
    generation = _PCIE_GENERATIONS.get(speed[1]) if speed else None
    return AdapterBus(f"pcie {generation} x{width[1]}") if generation and width else None


def _walk(rows: object) -> Iterator[Mapping[str, object]]:
    """Every row of a type, those within others included."""
    level = [mapping_of(row) for row in list_of(rows)]
    for _ in range(_DEEPEST):
        yield from level
        level = [mapping_of(row) for above in level for row in list_of(above.get("_items"))]


def _hex(value: object) -> int | None:
    """The number that opens `0x1234  (Example Semiconductor)`."""
    found = _HEX.match(text_of(value) or "")
    return None if found is None else int(found[0], 16)
