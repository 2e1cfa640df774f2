"""Nothing of Windows runs here: adapters are made up after the numbers of ifdef.h, ntddndis.h and IANA's ifType."""

from __future__ import annotations

from ipaddress import ip_interface

import pytest

from netaudit.machine.parse.windows.facts import AdapterFacts, AddressFacts
from netaudit.machine.parse.windows.interface import interfaces, medium, unique_names

CARD = AdapterFacts(number=7, alias="Ethernet 2", kind=6, physical_medium=14, hardware=True)


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({}, "wired"),
        ({"physical_medium": 9}, "radio"),
        ({"physical_medium": 1}, "radio"),
        ({"physical_medium": 8}, "radio"),
        ({"kind": 71, "physical_medium": 0}, "radio"),
        ({"kind": 243, "physical_medium": 0}, "radio"),
        ({"kind": 244, "physical_medium": 0}, "radio"),
        ({"kind": 6, "physical_medium": 8}, "radio"),
        ({"kind": 6, "physical_medium": 10}, "radio"),
        ({"kind": 131}, "tunnel"),
        ({"kind": 53, "hardware": False}, "tunnel"),
        ({"kind": 23, "hardware": False}, "tunnel"),
        ({"tunnelled": True}, "tunnel"),
        ({"kind": 24, "hardware": False}, "virtual"),
        ({"physical_medium": 0, "hardware": False}, "virtual"),
        ({"physical_medium": 0, "hardware": True}, "wired"),
        ({"hardware": None}, "wired"),
        ({"hardware": None, "physical_medium": 0}, "unknown"),
        ({"kind": 144, "hardware": False}, "unknown"),
    ],
)
def test_what_an_adapter_sends_through_is_told_by_numbers(change: dict[str, object], expected: str) -> None:
    assert expected == medium(CARD._replace(**change))


def shown(
    *adapters: AdapterFacts, addressed: tuple[int, ...] = (), stack: tuple[tuple[int, int], ...] = ()
) -> dict[int, str]:
    own = [AddressFacts(number, ip_interface("10.44.20.12/24")) for number in addressed]
    return {number: each.name for number, each in interfaces(adapters, own, {}, stack).items()}


def test_layers_and_what_is_neither_a_card_nor_addressed_are_left_away() -> None:
    layer = CARD._replace(number=31, alias="Ethernet 2-Filter-0000", layer=True)
    miniport = CARD._replace(number=9, alias="LAN-Verbindung* 1", hardware=False)
    tunnel = CARD._replace(number=20, alias="Boathouse VPN", hardware=False)

    assert {7: "Ethernet 2", 20: "Boathouse VPN"} == shown(CARD, layer, miniport, tunnel, addressed=(20, 31))


def test_names_that_are_taken_or_empty_get_their_number() -> None:
    twins = [CARD, CARD._replace(number=8, alias="ETHERNET 2"), CARD._replace(number=9, alias="")]

    assert {7: "Ethernet 2", 8: "ETHERNET 2 #8", 9: "interface #9"} == unique_names(twins)


def test_a_radio_is_not_half_duplex_though_windows_says_so() -> None:
    found = interfaces(
        [CARD._replace(physical_medium=9, full_duplex=False), CARD._replace(number=8, full_duplex=False)], [], {}, []
    )

    assert (None, "half") == (found[7].duplex, found[8].duplex)


def test_a_port_without_carrier_has_no_rate() -> None:
    found = interfaces([CARD._replace(carrier=False, rate_bit_per_s=10**10)], [], {}, [])

    assert found[7].rate_bit_per_s is None


def test_the_packet_that_ip_uses_goes_before_the_drivers() -> None:
    found = interfaces([CARD._replace(mtu=9000), CARD._replace(number=8, mtu=9000)], [], {7: 1500}, [])

    assert (1500, 9000) == (found[7].mtu, found[8].mtu)


def test_the_description_is_the_title_where_it_differs() -> None:
    found = interfaces(
        [CARD._replace(description="Example"), CARD._replace(number=8, alias="VPN", description="VPN")], [], {}, []
    )

    assert ("Example", None) == (found[7].title, found[8].title)


def test_a_virtual_port_stands_upon_its_card_through_the_layers_between_and_makes_its_rate_up() -> None:
    virtual = CARD._replace(number=15, alias="vEthernet", physical_medium=0, hardware=False)
    own = [AddressFacts(15, ip_interface("192.0.2.1/20"))]
    found = interfaces([CARD, virtual], own, {}, [(15, 40), (40, 41), (41, 40), (41, 7), (7, 99)])

    assert ("Ethernet 2", True) == (found[15].parent, found[15].made_up_rate)
    assert (None, False) == (found[7].parent, found[7].made_up_rate)


def test_a_stack_that_runs_in_a_circle_ends() -> None:
    virtual = CARD._replace(number=15, hardware=False)
    found = interfaces([virtual], [AddressFacts(15, ip_interface("192.0.2.1/20"))], {}, [(15, 16), (16, 15), (16, 16)])

    assert found[15].parent is None
