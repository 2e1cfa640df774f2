"""Adapters as PowerShell tells of them: Get-NetAdapter, its statistics, its hardware and its settings.

Numbers decide, never words: names, descriptions and values for display are translated.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.machine.parse.windows.facts import AdapterFacts, mac_of, mtu_of, slower
from netaudit.machine.parse.windows.json_shape import Row, flag, rate_of_text, text, texts, whole
from netaudit.model.machine_state import AdapterBus, Counters

_SWITCHED = {1: True, 2: False}
_CONNECTED = {1: True, 2: False}
_FULL_DUPLEX = {1: False, 2: True}
_PAIRS = re.compile(r"[0-9A-Fa-f]{2}(?:[-:]?[0-9A-Fa-f]{2}){5}")
_ENDPOINT = frozenset({2, 4})
"""Kinds of PCI Express device: an endpoint, one inside the processor (PciDeviceType)."""
_LANES = frozenset({1, 2, 4, 8, 16})
_FRAME_AROUND_PACKET = 14
"""What *JumboPacket counts beyond the IP packet: the Ethernet header [octets]."""

_FORCED = {
    1: 10_000_000,
    2: 10_000_000,
    3: 100_000_000,
    4: 100_000_000,
    5: 1_000_000_000,
    6: 1_000_000_000,
    7: 10_000_000_000,
    8: 20_000_000_000,
    9: 40_000_000_000,
    10: 100_000_000_000,
}
"""Values of *SpeedDuplex beside 0, automatic [bit/s]; odd ones to 5 are half duplex (Standardized INF Keywords for
Network Devices, Windows driver documentation)."""
_FIRST_PLAIN_RATE = 1000
"""From here on the value is the rate itself [Mb/s]."""


class Settings(NamedTuple):
    """An adapter's own settings, as far as they matter."""

    forced_bit_per_s: int | None = None
    """The rate it was set to; None where it is automatic, or not told [bit/s]."""
    listed: tuple[int, ...] = ()
    """Rates that it can be set to, the highest first [bit/s]; an adapter may run others by itself."""
    mtu: int | None = None
    """Largest packet that its largest frame holds [octets]."""


def adapters(found: Iterable[Row], statistics: Iterable[Row] = ()) -> tuple[AdapterFacts, ...]:
    """Adapters of Get-NetAdapter with their counters, which are told apart by name."""
    counters = {text(row, "Name"): _counters(row) for row in statistics}
    return tuple(_adapters(found, counters))


def _adapters(found: Iterable[Row], counters: dict[str | None, Counters]) -> Iterator[AdapterFacts]:
    for row in found:
        number, alias = whole(row, "ifIndex"), text(row, "Name")
        if number is not None:
            yield AdapterFacts(
                number=number,
                alias=alias or "",
                description=text(row, "InterfaceDescription"),
                kind=whole(row, "InterfaceType"),
                physical_medium=whole(row, "NdisPhysicalMedium"),
                hardware=flag(row, "HardwareInterface"),
                layer=flag(row, "IMFilter") is True,
                up=_SWITCHED.get(whole(row, "InterfaceAdminStatus") or 0),
                carrier=_CONNECTED.get(whole(row, "MediaConnectState") or 0),
                rate_bit_per_s=_rate_bit_per_s(row),
                full_duplex=_full_duplex(row),
                mtu=mtu_of(whole(row, "MtuSize")),
                mac=_mac(text(row, "MacAddress")),
                counters=counters.get(alias, Counters()),
                device=text(row, "PnPDeviceID"),
            )


def _rate_bit_per_s(row: Row) -> int | None:
    """The slower direction as a number; only where none is told, the words."""
    numbers = (whole(row, "TransmitLinkSpeed"), whole(row, "ReceiveLinkSpeed"))
    return slower(*numbers) if any(numbers) else rate_of_text(text(row, "LinkSpeed"))


def _full_duplex(row: Row) -> bool | None:
    known = _FULL_DUPLEX.get(whole(row, "MediaDuplexState") or 0)
    return flag(row, "FullDuplex") if known is None else known


def _mac(pairs: str | None) -> str | None:
    if pairs is None or not _PAIRS.fullmatch(pairs):
        return None
    return mac_of(bytes.fromhex(re.sub("[-:]", "", pairs)))


def _counters(row: Row) -> Counters:
    names = ("ReceivedPacketErrors", "ReceivedDiscardedPackets", "OutboundPacketErrors", "OutboundDiscardedPackets")
    told = ((name, whole(row, name)) for name in names)
    return Counters(
        sent_bytes=whole(row, "SentBytes"),
        received_bytes=whole(row, "ReceivedBytes"),
        sent_packets=_sum(row, "Sent{}Packets"),
        received_packets=_sum(row, "Received{}Packets"),
        errors={name: count for name, count in told if count is not None},
    )


def _sum(row: Row, name: str) -> int | None:
    """Packets of all three kinds; None where one is not told."""
    parts = [whole(row, name.format(kind)) for kind in ("Unicast", "Multicast", "Broadcast")]
    told = [part for part in parts if part is not None]
    return sum(told) if len(told) == len(parts) else None


def bus(device: str | None, hardware: Row | None) -> AdapterBus | None:
    """The bus of an adapter, from where it is plugged in and what Get-NetAdapterHardwareInfo tells of PCI Express.

    Windows tells no rate of a USB adapter. None where it is on neither.
    """
    road = (device or "").partition("\\")[0].upper()
    if road == "USB":
        return AdapterBus("usb")
    if hardware is None or whole(hardware, "PciDeviceType") not in _ENDPOINT:
        return None
    now = _pci_express(hardware, "Current")
    return None if now is None else AdapterBus(now, best_text=_pci_express(hardware, "Max"))


def _pci_express(hardware: Row, which: str) -> str | None:
    """Generation and lanes; the speed is coded in the order of generations (PCI Express Base, link capabilities)."""
    generation = whole(hardware, f"PciExpress{which}LinkSpeedEncoded")
    lanes = whole(hardware, f"PciExpress{which}LinkWidth")
    if generation is None or not 1 <= generation <= 6 or lanes not in _LANES:
        return None
    return f"pcie {generation} x{lanes}"


def settings(found: Iterable[Row], alias: str) -> Settings:
    """What an adapter is set to, by Get-NetAdapterAdvancedProperty: its registry keywords are in no language."""
    own = {(text(row, "RegistryKeyword") or "").lower(): row for row in found if text(row, "Name") == alias}
    speed, jumbo = own.get("*speedduplex", {}), own.get("*jumbopacket", {})
    listed = {_forced_bit_per_s(value) for value in texts(speed, "ValidRegistryValues")}
    frame = _first(jumbo, "RegistryValue")
    return Settings(
        forced_bit_per_s=_forced_bit_per_s(_first(speed, "RegistryValue")),
        listed=tuple(sorted(filter(None, listed), reverse=True)),
        mtu=int(frame) - _FRAME_AROUND_PACKET if re.fullmatch("[0-9]{4,5}", frame) else None,
    )


def _first(row: Row, key: str) -> str:
    return next(iter(texts(row, key)), "")


def _forced_bit_per_s(value: str) -> int | None:
    """The rate behind a value of *SpeedDuplex [bit/s]; None of automatic and of a value that nobody documents."""
    if not re.fullmatch("[0-9]{1,6}", value):
        return None
    number = int(value)
    if number in _FORCED:
        return _FORCED[number]
    return number * 1_000_000 if number >= _FIRST_PLAIN_RATE else None
