"""Buses read from the words that systems have for them; what they carry is held against the arithmetic of their codes."""

from __future__ import annotations

import pytest

from netaudit.model.machine_state import AdapterBus
from netaudit.model.plan import Bus
from netaudit.rules.live.buses import bus_of, most_bit_per_s, usable


@pytest.mark.parametrize(
    ("text", "bus"),
    [
        ("pcie 3 x4", Bus("pcie", generation=3, lanes=4)),
        ("PCI Express 4 x16", Bus("pcie", generation=4, lanes=16)),
        ("pcie 3x1", Bus("pcie", generation=3, lanes=1)),
        ("pcie 3 x0", None),
        ("Thunderbolt 3", Bus("thunderbolt", generation=3)),
        ("usb 10G", Bus("usb", rate_bit_per_s=10_000_000_000)),
        ("USB 480M", Bus("usb", rate_bit_per_s=480_000_000)),
        (" usb 2.5 Gb/s ", Bus("usb", rate_bit_per_s=2_500_000_000)),
        ("usb 10Gbps", Bus("usb", rate_bit_per_s=10_000_000_000)),
        ("usb", None),
        ("usb 99999G", None),
        ("", None),
        ("virtio", None),
        ("pcie 3 x4 and more", None),
    ],
)
def test_a_bus_is_read_from_words(text: str, bus: Bus | None) -> None:
    assert bus == bus_of(text)


def test_what_a_bus_carries_comes_from_the_tables() -> None:
    """USB 3.2: 8b/10b at 5 Gb/s leaves 4 Gb/s of data."""
    carries = usable(AdapterBus("usb 5G"))

    assert carries is not None
    assert 4_000_000_000 == carries.rate_bit_per_s


@pytest.mark.parametrize("text", ["usb 480M", "firewire 800", ""])
def test_a_bus_in_no_table_carries_what_nobody_knows(text: str) -> None:
    assert usable(AdapterBus(text)) is None


@pytest.mark.parametrize(
    ("bus", "most"),
    [
        (AdapterBus("usb 5G", 5_000_000_000), 4_000_000_000),
        (AdapterBus("firewire 800", 800_000_000), 800_000_000),
        (AdapterBus("usb 480M", 280_000_000), 280_000_000),
        (AdapterBus("usb 480M"), 480_000_000),
        (AdapterBus("firewire 800"), None),
        (AdapterBus("thunderbolt 9"), None),
    ],
)
def test_the_most_is_by_the_tables_then_by_the_system_then_by_the_signal(bus: AdapterBus, most: int | None) -> None:
    assert most == most_bit_per_s(bus)
