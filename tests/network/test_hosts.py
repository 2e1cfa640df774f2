"""Adapters and docks as devices of their own: a road over a host cable carries what the bus does."""

from __future__ import annotations

import pytest
from wiring import G, cable, device, jack, only_link, seat, switch, topology_of, vault

from netaudit.model.path import Path
from netaudit.model.plan import Bus, Port
from netaudit.network.hosts import bus_rate_bit_per_s
from netaudit.network.links import Promised

USB_10G = Bus("usb", rate_bit_per_s=10 * G)
USB_5G = Bus("usb", rate_bit_per_s=5 * G)
TB_3 = Bus("thunderbolt", generation=3)
USED = round(10 * G * 128 / 132)
"""USB 3.2: 128b/132b at 10 Gb/s, printed as 1212 MB/s in handbook tables."""


def host(bus: Bus | None = None) -> Port:
    return Port(connector="usb-c", bus=bus)


def path(bus: Bus | None, length_m: float | None = 0.5, **adapter: tuple[str, ...]) -> Path:
    """A seat on an adapter of its own at a switch."""
    (found,) = topology_of(
        seat("cut-1", {"usb": host(bus)}),
        device("dongle", "adapter", {"host": host(), "lan": jack()}, **adapter),
        switch("core"), vault(),
        cable("H", "cut-1/usb", "dongle/host", "usb", length_m), cable("C", "dongle/lan", "core/1"),
        cable("V", "vault/fast", "core/2"),
    ).paths  # fmt: skip
    return found


def test_a_road_through_an_adapter_carries_what_its_bus_does() -> None:
    road = path(USB_10G, bridges=("host", "lan"))

    assert [USED, 10 * G, 10 * G] == [hop.promised_bit_per_s for hop in road.hops]
    assert ["host bus", "10GBASE-T", "10GBASE-T"] == [hop.phy for hop in road.hops]
    assert USED == road.promised_bit_per_s == road.agreed_bit_per_s


def test_data_over_a_host_cable_loses_nothing_to_frames_of_its_own() -> None:
    road = path(USB_5G, bridges=("host", "lan"))

    assert 4 * G == road.goodput_bit_per_s
    assert "bus cut-1/usb" == str(road.limited_by) or "link cut-1/usb - dongle/host" == str(road.limited_by)


def test_an_adapter_that_is_not_said_to_forward_joins_nothing() -> None:
    assert () == path(USB_10G).hops


def test_a_bus_that_nobody_gives_leaves_the_road_open() -> None:
    link = only_link(
        seat("cut-1", {"usb": host()}), device("dongle", "adapter", {"host": host()}),
        cable("H", "cut-1/usb", "dongle/host", "usb"),
    )  # fmt: skip

    assert (None, Promised(0, None)) == (link.rates, link.promised)
    assert link.runs


@pytest.mark.parametrize(
    ("near", "far", "expected"),
    [
        (USB_10G, None, USED),
        (None, USB_10G, USED),
        (USB_10G, USB_5G, 4 * G),
        (USB_5G, USB_10G, 4 * G),
        (None, None, None),
        (USB_10G, Bus("usb", rate_bit_per_s=480_000_000), None),
    ],
)
def test_the_slower_of_two_buses_counts_and_an_unknown_one_leaves_it_open(
    near: Bus | None, far: Bus | None, expected: int | None
) -> None:
    assert expected == bus_rate_bit_per_s(host(near), host(far), 0.5)


def test_a_long_passive_cable_lowers_the_bus() -> None:
    """Two passive metres carry Thunderbolt 3 at 20 Gb/s, of which adapters get about 11 as over Thunderbolt 2."""
    assert [22 * G, 11 * G] == [bus_rate_bit_per_s(host(TB_3), host(), length) for length in (0.5, 2.0)]
    assert 22 * G == bus_rate_bit_per_s(host(TB_3), host(), None)
