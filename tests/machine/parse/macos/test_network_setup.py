"""`networksetup`. Format: as published in captures; these are invented and not taken from a machine."""

from __future__ import annotations

from mac_captures import capture

from netaudit.machine.parse.macos.network_setup import Service, parse_hardware_ports, parse_service_order


def test_services_come_in_the_users_order_with_their_devices() -> None:
    services = parse_service_order(capture("networksetup-order.txt"))

    assert ["en7", "en9", "en0", "en10", None] == [service.device for service in services]


def test_names_are_free_text_and_may_look_like_the_format_itself() -> None:
    """A service may be called in any language, with brackets and commas; only its device joins it with anything."""
    expected = Service("10G Schnitt (Halle, Device: oben)", "Thunderbolt Ethernet Slot 0", "en7", enabled=True)

    assert expected == parse_service_order(capture("networksetup-order.txt"))[0]


def test_a_star_in_the_place_of_the_number_means_disabled() -> None:
    """`(*)` replaces the number."""
    enabled = [service.enabled for service in parse_service_order(capture("networksetup-order.txt"))]

    assert [True, False, True, True, True] == enabled


def test_a_service_without_a_device_has_none() -> None:
    """The device of a VPN is empty."""
    assert parse_service_order(capture("networksetup-order.txt"))[-1].device is None


def test_hardware_ports_go_by_their_device_and_vlans_are_none() -> None:
    expected = {
        "en10": "USB 10/100/1G/2.5G LAN", "en7": "Thunderbolt Ethernet Slot 0", "en0": "Wi-Fi",
        "bridge0": "Thunderbolt Bridge",
    }  # fmt: skip

    assert expected == parse_hardware_ports(capture("networksetup-ports.txt"))


def test_rubbish_holds_no_service_and_no_port() -> None:
    text = "** Error: The parameters were not valid.\n(1) lonely\nDevice: en7\n"

    assert () == parse_service_order(text)
    assert {} == parse_hardware_ports(text)
