"""Values of ports."""

from __future__ import annotations

from netaudit.model.ports import Bus, Port


def test_a_port_that_names_no_network_carries_any() -> None:
    assert Port().carries_any
    assert not Port(untagged="media").carries_any
    assert not Port(tagged=("media",)).carries_any


def test_what_a_plan_does_not_say_of_a_port_is_none_and_not_zero() -> None:
    port = Port()

    assert [None] * 5 == [port.rates, port.mtu, port.bus, port.owned, port.untagged]


def test_a_bus_is_told_as_people_call_it() -> None:
    assert ["PCI Express 3 x4", "Thunderbolt 3", "USB 10G", "USB 2.5G"] == [
        str(bus)
        for bus in (
            Bus(kind="pcie", generation=3, lanes=4),
            Bus(kind="thunderbolt", generation=3, via="dock"),
            Bus(kind="usb", rate_bit_per_s=10_000_000_000),
            Bus(kind="usb", rate_bit_per_s=2_500_000_000),
        )
    ]
