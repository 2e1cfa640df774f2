"""Nothing of Windows runs here: tables are built by hand, PowerShell's answers written after documented formats. The
same room is told both ways, and both must come to the same."""

from __future__ import annotations

from ipaddress import ip_interface

import pytest
from windowscalls import WindowsCalls
from windowsroom import interface, ip_settings, own_address, record, table, told

from netaudit.errors import AnswerError
from netaudit.machine.windows.asked import Asked
from netaudit.machine.windows.links import by_name, counts, detailed
from netaudit.machine.windows.native import Native
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import AdapterBus, Interface

ROOM = {
    "interfaces": table(
        interface(
            7, "Ethernet 2", "02:00:5e:00:53:12", Description="Example 10GbE Adapter", Mtu=9000,
            TransmitLinkSpeed=10**10, ReceiveLinkSpeed=10**10,
        ),
        interface(4, "Ethernet", "02:00:5e:00:53:14", Description="Example USB Gigabit Adapter"),
        interface(
            12, "WLAN", "02:00:5e:00:53:32", Description="Example Drahtlosadapter", Type=71, PhysicalMediumType=9,
            TransmitLinkSpeed=2_402_000_000, ReceiveLinkSpeed=2_161_300_000,
        ),
        interface(
            9, "LAN-Verbindung* 1", "02:00:5e:00:53:33", Type=71, PhysicalMediumType=9, InterfaceAndOperStatusFlags=0,
        ),
        interface(31, "Ethernet 2-WFP Native MAC Layer LightWeight Filter-0000", InterfaceAndOperStatusFlags=2),
        interface(
            1, "Loopback Pseudo-Interface 1", Description="Software Loopback Interface 1", Type=24, PhysicalMediumType=0,
            InterfaceAndOperStatusFlags=0, TransmitLinkSpeed=1073741824, ReceiveLinkSpeed=1073741824, Mtu=2**32 - 1,
        ),
        interface(
            20, "Boathouse VPN", Description="Boathouse VPN", Type=23, PhysicalMediumType=0, Mtu=1400,
            InterfaceAndOperStatusFlags=0, TransmitLinkSpeed=2**64 - 1, ReceiveLinkSpeed=2**64 - 1,
        ),
        interface(
            15, "vEthernet (Example)", "02:00:5e:00:53:15", Description="Example Virtual Ethernet Adapter",
            PhysicalMediumType=0, InterfaceAndOperStatusFlags=0, TransmitLinkSpeed=10**10, ReceiveLinkSpeed=10**10,
        ),
    ),
    "addresses": table(
        own_address(7, "10.44.20.12", 24),
        own_address(7, "fe80::5eff:fe00:5312", 64),
        own_address(12, "192.168.44.32", 24),
        own_address(4, "169.254.7.9", 16, state=1),
        own_address(9, "169.254.99.1", 16, state=0),
        own_address(20, "198.51.100.77", 32),
        own_address(15, "192.0.2.1", 20),
        own_address(1, "127.0.0.1", 8),
        own_address(1, "::1", 128),
    ),
}  # fmt: skip
CAPTURES = ("adapters-5.1-de", "addresses")


def ways(*captures: str, **tables: object) -> Ways:
    ask = told(*captures)
    return Ways(Native(WindowsCalls(**tables).load), Asked(ask), ask)


def plain(found: Interface) -> Interface:
    """Without what only one of the ways tells."""
    return found._replace(duplex=None, counters=found.counters._replace(errors={}))._replace(
        counters=Interface("").counters
    )


def test_direct_calls_and_powershell_tell_the_same_room() -> None:
    direct, asked = by_name(ways(**ROOM)), by_name(ways(*CAPTURES, interfaces=5, addresses=5))

    assert {name: plain(each) for name, each in direct.items()} == {name: plain(each) for name, each in asked.items()}


def test_what_counts_is_every_card_and_whatever_has_an_address() -> None:
    expected = [
        "Ethernet 2", "Ethernet", "WLAN", "Loopback Pseudo-Interface 1", "Boathouse VPN", "vEthernet (Example)",
    ]  # fmt: skip

    assert expected == list(by_name(ways(**ROOM)))


def test_each_medium_is_told_by_its_numbers() -> None:
    expected = ["wired", "wired", "radio", "virtual", "tunnel", "virtual"]

    assert expected == [each.medium for each in by_name(ways(**ROOM)).values()]


def test_an_interface_is_shown_by_the_name_that_people_see_and_its_description() -> None:
    expected = Interface(
        name="Ethernet 2",
        number=7,
        title="Example 10GbE Adapter",
        medium="wired",
        up=True,
        carrier=True,
        rate_bit_per_s=10_000_000_000,
        mtu=9000,
        mac="02:00:5e:00:53:12",
        addresses=(ip_interface("10.44.20.12/24"), ip_interface("fe80::5eff:fe00:5312/64")),
    )

    assert expected == plain(by_name(ways(**ROOM))["Ethernet 2"])


def test_the_packet_that_ip_uses_goes_before_the_drivers_and_ipv4_before_ipv6() -> None:
    settings = {(7, 2): ip_settings(7, 15, 1500), (7, 23): ip_settings(7, 15, 1280)}

    assert 1500 == by_name(ways(**ROOM, ip_interfaces=settings))["Ethernet 2"].mtu


def test_a_virtual_port_names_the_card_beneath_it() -> None:
    pair = record("MIB_IFSTACK_ROW", HigherLayerInterfaceIndex=15, LowerLayerInterfaceIndex=7)

    assert "Ethernet 2" == by_name(ways(**ROOM, stack=table(pair, first=4)))["vEthernet (Example)"].parent


def test_a_stack_that_is_not_told_leaves_it_unknown() -> None:
    assert by_name(ways(**ROOM, stack=50))["vEthernet (Example)"].parent is None


def test_counters_come_by_name_and_no_carrier_change_is_made_up() -> None:
    found = counts(ways(interfaces=table(interface(7, "Ethernet 2", OutOctets=5, InOctets=9))))

    assert (5, 9) == (found["Ethernet 2"].counters.sent_bytes, found["Ethernet 2"].counters.received_bytes)
    assert found["Ethernet 2"].carrier_changes is None


FAST = Interface("Ethernet 2", number=7, medium="wired", rate_bit_per_s=10_000_000_000, mtu=9000)


def test_a_card_in_a_narrow_slot_tells_its_bus_its_duplex_and_the_rates_it_can_be_set_to() -> None:
    found = detailed(told("adapters-5.1-de", "hardware", "settings-7"), FAST)
    expected = FAST._replace(
        duplex="full",
        bus=AdapterBus("pcie 2 x1", best_text="pcie 3 x4"),
        supported=(10_000_000_000, 5_000_000_000, 2_500_000_000, 1_000_000_000, 100_000_000),
    )

    assert expected == found


def test_a_forced_rate_is_all_that_is_offered() -> None:
    usb = Interface("Ethernet", number=4, medium="wired", rate_bit_per_s=100_000_000, mtu=1500)
    found = detailed(told("adapters-5.1-de", "settings-7"), usb)

    assert ((100_000_000,), AdapterBus("usb")) == (found.offered, found.bus)


def test_rates_that_do_not_reach_the_agreed_one_are_not_believed() -> None:
    """1000BASE-T cannot be forced (IEEE 802.3, clause 40 needs auto-negotiation), so a list of settings may end below."""
    usb = Interface("Ethernet", number=4, medium="wired", rate_bit_per_s=1_000_000_000, mtu=1500)

    assert detailed(told("adapters-5.1-de", "settings-7"), usb).supported is None


def test_a_radio_takes_turns_and_is_not_called_half_duplex() -> None:
    radio = Interface("WLAN", number=12, medium="radio", rate_bit_per_s=2_161_300_000)

    assert detailed(told("adapters-5.1-de"), radio).duplex is None


def test_a_vpn_of_windows_itself_is_a_tunnel_whatever_its_adapter_says() -> None:
    vpn = Interface("Boathouse VPN", number=20, medium="unknown")

    assert "tunnel" == detailed(told("adapters-5.1-de", "tunnels"), vpn).medium


def test_an_adapter_is_known_by_its_number_though_its_name_changed_hands() -> None:
    renamed = Interface("Old name", number=7, medium="wired")

    assert "full" == detailed(told("adapters-5.1-de"), renamed).duplex
    with pytest.raises(AnswerError, match="knows no adapter"):
        detailed(told("adapters-5.1-de"), Interface("Gone", number=99))


def test_an_mtu_that_is_not_told_is_read_from_the_largest_frame() -> None:
    assert 9000 == detailed(told("adapters-5.1-de", "settings-7"), FAST._replace(mtu=None)).mtu
