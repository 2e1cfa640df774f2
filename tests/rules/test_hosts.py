"""Hosts: the words for a bus and its host cable, and the step that widens it."""

from __future__ import annotations

import pytest

from netaudit.model.place import PortRef
from netaudit.model.plan import Bus, HostCable, Port
from netaudit.rules.hosts import bus_text, wider_bus

G = 1_000_000_000
WIRE = PortRef("cut-1", "wire")
TB3 = Bus(kind="thunderbolt", generation=3)
USB10 = Bus(kind="usb", rate_bit_per_s=10 * G)
SLOT = Bus(kind="pcie", generation=3, lanes=1)


@pytest.mark.parametrize(
    ("bus", "cable", "text"),
    [
        (TB3, None, "Thunderbolt 3"),
        (TB3, HostCable(0.8), "Thunderbolt 3"),
        (TB3, HostCable(2.0, active=True), "Thunderbolt 3"),
        (TB3, HostCable(0.81), "Thunderbolt 3, lowered by 0.81 m of host cable"),
        (TB3, HostCable(2.01), "Thunderbolt 3 over 2.01 m of host cable"),
        (USB10, HostCable(1.5), "USB 10G, lowered by 1.5 m of host cable"),
        (SLOT, HostCable(3.0), "PCI Express 3 x1"),
    ],
)
def test_a_bus_is_told_with_its_cable_where_that_takes_something_away(
    bus: Bus, cable: HostCable | None, text: str
) -> None:
    assert text == bus_text(Port(bus=bus, host_cable=cable))


@pytest.mark.parametrize(
    ("bus", "cable", "wants_g", "step"),
    [
        (TB3, HostCable(2.0), 22, "Use a host cable of at most 0.8 m at cut-1/wire, which leaves Thunderbolt 3 whole."),
        (TB3, HostCable(9.0), 22, "Use a host cable of at most 0.8 m at cut-1/wire, which leaves Thunderbolt 3 whole."),
        (
            TB3,
            HostCable(9.0, active=True),
            10,
            "Use a host cable of at most 2 m at cut-1/wire, which leaves Thunderbolt 3 whole.",
        ),
        # more than the whole bus carries
        (TB3, HostCable(2.0), 25, "Give cut-1/wire a bus that carries 25 Gb/s (3125 MB/s)."),
        (TB3, HostCable(0.8), 25, "Give cut-1/wire a bus that carries 25 Gb/s (3125 MB/s)."),
        (TB3, HostCable(0.8), 10, "Give cut-1/wire a bus that carries 10 Gb/s (1250 MB/s)."),
        (TB3, None, 25, "Give cut-1/wire a bus that carries 25 Gb/s (3125 MB/s)."),
        (SLOT, HostCable(3.0), 5, "Give cut-1/wire a bus that carries 5 Gb/s (625 MB/s)."),
        (None, HostCable(3.0), 5, "Give cut-1/wire a bus that carries 5 Gb/s (625 MB/s)."),
    ],
)
def test_a_bus_is_widened_by_a_shorter_cable_where_that_is_what_holds_it_back(
    bus: Bus | None, cable: HostCable | None, wants_g: int, step: str
) -> None:
    assert step == wider_bus(WIRE, Port(bus=bus, host_cable=cable), wants_g * G)


def test_a_shorter_cable_will_do_where_less_than_the_whole_rate_is_enough() -> None:
    """9.7 Gb/s of USB 10G (1212 MB/s) are within a tenth of 10 Gb/s, and short of all of it."""
    port = Port(bus=USB10, host_cable=HostCable(2.0))

    assert "Give cut-1/wire a bus that carries 10 Gb/s (1250 MB/s)." == wider_bus(WIRE, port, 10 * G)
    shorter = "Use a host cable of at most 1 m at cut-1/wire, which leaves USB 10G whole."
    assert shorter == wider_bus(WIRE, port, 10 * G, 9.0 * G)
