"""`system_profiler -json`. Keys: as published in captures; these are invented and not taken from a machine."""

from __future__ import annotations

import json

import pytest
from mac_captures import capture

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.profiler import Card, parse_cards, parse_radio_rate
from netaudit.model.machine_state import AdapterBus

M = 10**6


def cards(release: str) -> dict[str, Card]:
    return {card.interface: card for card in parse_cards(capture(f"profiler-{release}.json"))}


def test_a_usb_adapter_tells_the_speed_of_its_own_bus() -> None:
    """An adapter of 2.5 Gb/s that came up on USB 2: 480 Mb/s (USB 2.0 specification)."""
    expected = Card("en10", "Example 2.5G adapter", 2500 * M, AdapterBus("usb 480M"))

    assert expected == cards("15")["en10"]


def test_its_best_rate_is_what_it_could_do_not_what_it_agreed_on() -> None:
    """`spethernet_max_link_speed` is a capability."""
    assert 10_000 * M == cards("26")["en7"].best_bit_per_s


@pytest.mark.parametrize("release", ["15", "26"])
def test_usb_devices_are_found_under_either_type(release: str) -> None:
    """From 26 on SPUSBDataType is empty and SPUSBHostDataType has them."""
    assert AdapterBus("usb 5G") == cards(release)["en8"].bus


def test_a_card_outside_runs_over_thunderbolt_unless_its_slot_is_narrower() -> None:
    assert AdapterBus("thunderbolt 3") == cards("15")["en7"].bus
    assert AdapterBus("pcie 3 x1") == cards("26")["en7"].bus


@pytest.mark.parametrize(("generation", "speed"), [(3, "8.0"), (4, "16.0"), (5, "32.0")])
@pytest.mark.parametrize("lanes", [1, 2, 4, 8, 16])
def test_a_slot_of_four_lanes_or_more_outside_is_bounded_by_its_tunnel(generation: int, speed: str, lanes: int) -> None:
    """Thunderbolt 3 tunnels PCI Express 3 with four lanes (Thunderbolt 3 technology brief, from memory)."""
    answer = {
        "SPEthernetDataType": [
            {"spethernet_BSD_Name": "en7", "spethernet_vendor-id": "0x1", "spethernet_device-id": "0x2"}
        ],
        "SPPCIDataType": [
            {"sppci_vendor-id": "0x1", "sppci_device-id": "0x2", "sppci_slot_name": "Thunderbolt@5,0,0",
             "sppci_link-speed": f"{speed} GT/s", "sppci_link-width": f"x{lanes}"}
        ],
        "SPThunderboltDataType": [{"_items": [{"mode_key": "thunderbolt_three"}]}],
    }  # fmt: skip
    (found,) = parse_cards(json.dumps(answer))
    answer["SPPCIDataType"][0] |= {"sppci_slot_name": "Slot-1"}
    (inside,) = parse_cards(json.dumps(answer))

    assert AdapterBus("thunderbolt 3" if lanes >= 4 else f"pcie {generation} x{lanes}") == found.bus
    assert AdapterBus(f"pcie {generation} x{lanes}") == inside.bus


@pytest.mark.parametrize(
    "link", [{"link-speed": "8.0 GT/s"}, {"link-width": "x4"}, {"link-speed": "7 GT/s", "link-width": "x4"}]
)
def test_lanes_without_a_speed_or_a_speed_without_lanes_is_no_bus(link: dict[str, str]) -> None:
    card = {"spethernet_BSD_Name": "en1", **{f"spethernet_pcie_{key}": value for key, value in link.items()}}
    (found,) = parse_cards(json.dumps({"SPEthernetDataType": [card]}))

    assert found.bus is None


def test_two_devices_of_one_kind_at_different_speeds_leave_the_bus_open() -> None:
    answer = json.loads(capture("profiler-26.json"))
    twin = {**answer["SPUSBHostDataType"][0]["_items"][0], "USBDeviceKeyLinkSpeed": "480 Mb/s"}
    answer["SPUSBHostDataType"].append(twin)

    assert {card.interface: card for card in parse_cards(json.dumps(answer))}["en8"].bus is None


def test_a_card_of_the_machine_tells_its_lanes_itself() -> None:
    card = {"spethernet_BSD_Name": "en1", "spethernet_pcie_link-speed": "16.0 GT/s", "spethernet_pcie_link-width": "x4"}
    (found,) = parse_cards(json.dumps({"SPEthernetDataType": [card]}))

    assert Card("en1", None, None, AdapterBus("pcie 4 x4")) == found


@pytest.mark.parametrize(("speed", "generation"), [("2.5", 1), ("5.0", 2), ("8.0", 3), ("16.0", 4), ("32.0", 5)])
def test_each_generation_of_pci_express_has_its_own_transfer_rate(speed: str, generation: int) -> None:
    """PCI Express Base Specification: 2.5, 5, 8, 16 and 32 GT/s a lane."""
    card = {"spethernet_BSD_Name": "en1", "spethernet_pcie_link-speed": f"{speed} GT/s",
            "spethernet_pcie_link-width": "x4"}  # fmt: skip
    (found,) = parse_cards(json.dumps({"SPEthernetDataType": [card]}))

    assert AdapterBus(f"pcie {generation} x4") == found.bus


@pytest.mark.parametrize("ids", [{}, {"vendor-id": "0x1d6a"}, {"device-id": "0x94c0"}])
def test_a_card_without_numbers_is_in_no_slot(ids: dict[str, str]) -> None:
    card = {"spethernet_BSD_Name": "en1", **{f"spethernet_{key}": value for key, value in ids.items()}}
    slot = {"sppci_link-speed": "8.0 GT/s", "sppci_link-width": "x4",
            **{f"sppci_{key}": value for key, value in ids.items()}}  # fmt: skip
    (found,) = parse_cards(json.dumps({"SPEthernetDataType": [card], "SPPCIDataType": [slot]}))

    assert found.bus is None


def test_the_rate_of_a_radio_is_read_though_its_network_is_hidden() -> None:
    """Without leave for the location the network's name is <redacted>; its rate stays readable."""
    text = capture("profiler-airport.json")

    assert 866 * M == parse_radio_rate(text, "en0")
    assert parse_radio_rate(text, "en1") is None


@pytest.mark.parametrize(
    "text", ["{}", "[]", "null", '{"SPEthernetDataType": {"a": 1}}', '{"SPEthernetDataType": [[5]]}']
)
def test_json_of_another_shape_holds_no_card(text: str) -> None:
    assert () == parse_cards(text)
    assert parse_radio_rate(text, "en0") is None


def test_text_where_json_was_asked_for_cannot_be_read() -> None:
    with pytest.raises(AnswerError):
        parse_cards("Ethernet:\n")
    with pytest.raises(AnswerError):
        parse_radio_rate("", "en0")
