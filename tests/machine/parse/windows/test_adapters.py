"""Nothing of Windows runs here: the captures are written after the properties of MSFT_NetAdapter, its statistics, its
hardware information and its advanced properties as Windows documentation lists them, in German and Korean, for 5.1 and 7;
they are not taken from a machine."""

from __future__ import annotations

import pytest
from windowsroom import capture

from netaudit.machine.parse.windows.adapters import Settings, adapters, bus, settings
from netaudit.machine.parse.windows.facts import AdapterFacts
from netaudit.machine.parse.windows.json_shape import Row
from netaudit.machine.parse.windows.script import answered
from netaudit.model.machine_state import AdapterBus, Counters


def of(name: str, question: str) -> tuple[Row, ...]:
    return answered(capture(name), question)


def named(name: str) -> dict[str, AdapterFacts]:
    return {each.alias: each for each in adapters(of(name, "adapters"))}


GERMAN = named("adapters-5.1-de")


def test_a_card_is_read_from_its_numbers() -> None:
    expected = AdapterFacts(
        number=7,
        alias="Ethernet 2",
        description="Example 10GbE Adapter",
        kind=6,
        physical_medium=14,
        hardware=True,
        up=True,
        carrier=True,
        rate_bit_per_s=10_000_000_000,
        full_duplex=True,
        mtu=9000,
        mac="02:00:5e:00:53:12",
        device="PCI\\VEN_0000&DEV_0001&SUBSYS_00000000&REV_01\\4&0&0&00E0",
    )

    assert expected == GERMAN["Ethernet 2"]


def test_a_single_adapter_and_a_wrapped_array_of_version_5_1_are_read_alike() -> None:
    assert GERMAN["Ethernet 2"] == named("adapter-single-5.1")["Ethernet 2"]
    assert ["Ethernet 2", "WLAN"] == list(named("adapters-wrapped-5.1"))


def test_wifi_is_known_by_its_medium_even_where_its_driver_calls_itself_ethernet() -> None:
    wifi = named("adapters-7-ko")["Wi-Fi"]

    assert (6, 9) == (wifi.kind, wifi.physical_medium)


def test_a_rate_is_a_number_before_it_is_words_and_words_may_have_a_comma() -> None:
    assert 2_161_300_000 == GERMAN["WLAN"].rate_bit_per_s
    assert 866_700_000 == named("adapters-7-ko")["Wi-Fi"].rate_bit_per_s
    assert 2_500_000_000 == named("adapters-7-ko")["이더넷"].rate_bit_per_s


def test_a_rate_of_all_ones_and_a_rate_of_zero_are_unknown() -> None:
    assert GERMAN["Boathouse VPN"].rate_bit_per_s is None
    assert GERMAN["LAN-Verbindung* 1"].rate_bit_per_s is None


def test_duplex_is_a_number_and_zero_is_unknown() -> None:
    assert named("adapters-7-ko")["이더넷"].full_duplex is False
    assert GERMAN["Boathouse VPN"].full_duplex is None


@pytest.mark.parametrize(("number", "known"), [(0, None), (1, True), (2, False), (3, None), (None, None)])
def test_a_switch_and_a_cable_are_on_off_or_not_told(number: int | None, known: bool | None) -> None:
    """NET_IF_ADMIN_STATUS and NET_IF_MEDIA_CONNECT_STATE in ifdef.h: 1 is up and connected, 2 down and disconnected."""
    row = {"ifIndex": 7, "InterfaceAdminStatus": number, "MediaConnectState": number}

    assert [(known, known)] == [(each.up, each.carrier) for each in adapters([row])]


@pytest.mark.parametrize(
    ("number", "flag", "full"),
    [(0, None, None), (1, None, False), (2, None, True), (3, None, None), (None, True, True), (0, False, False),
     (1, True, False)],
)  # fmt: skip
def test_duplex_is_told_by_its_number_before_its_flag(number: int | None, flag: bool | None, full: bool | None) -> None:
    """NET_IF_MEDIA_DUPLEX_STATE in ifdef.h: 1 is half, 2 full."""
    assert [full] == [
        each.full_duplex for each in adapters([{"ifIndex": 7, "MediaDuplexState": number, "FullDuplex": flag}])
    ]


def test_hostile_rows_are_read_as_far_as_they_make_sense() -> None:
    found = {each.number: each for each in adapters(of("adapters-hostile", "adapters"))}

    assert {3, 8, 10, 11} == set(found)
    assert "\x1b[31mEthernet\u202e\0" == found[3].alias
    assert (None, None, None) == (found[8].mac, found[8].mtu, found[8].rate_bit_per_s)
    assert 10_000_000_000 == found[10].rate_bit_per_s
    assert (None, None) == (found[11].rate_bit_per_s, found[11].carrier)


def test_counters_are_joined_by_name_and_a_missing_one_is_unknown() -> None:
    found = {
        each.alias: each.counters
        for each in adapters(of("adapters-5.1-de", "adapters"), of("statistics", "statistics"))
    }
    expected = Counters(
        sent_bytes=9_000_000_000,
        received_bytes=5_000_000_000_000_000_000,
        sent_packets=6_000_150,
        received_packets=14_000_977,
        errors={
            "ReceivedPacketErrors": 3,
            "ReceivedDiscardedPackets": 12,
            "OutboundPacketErrors": 0,
            "OutboundDiscardedPackets": 1,
        },
    )

    assert expected == found["Ethernet 2"]
    assert found["WLAN"].received_packets is None
    assert "ReceivedPacketErrors" not in found["WLAN"].errors
    assert Counters() == found["Ethernet"]


HARDWARE = {row["Name"]: row for row in of("hardware", "hardware")}


def test_the_bus_of_a_card_is_what_was_agreed_beside_the_best_it_could() -> None:
    """PCI Express Base, link capabilities register: codes 1, 2, 3 are 2.5, 5 and 8 GT/s, generations 1, 2 and 3."""
    expected = AdapterBus("pcie 2 x1", best_text="pcie 3 x4")

    assert expected == bus(GERMAN["Ethernet 2"].device, HARDWARE["Ethernet 2"])


@pytest.mark.parametrize(("kind", "generation", "lanes"), [(2, 1, 1), (4, 6, 16), (2, 4, 2), (2, 5, 8)])
def test_every_generation_and_width_of_pci_express_is_known(kind: int, generation: int, lanes: int) -> None:
    """PCI Express Base, link capabilities register: speeds 1 to 6 by code; links of 1, 2, 4, 8 and 16 lanes."""
    found = bus("PCI\\VEN_0000", {"PciDeviceType": kind, "PciExpressCurrentLinkSpeedEncoded": generation,
                                  "PciExpressCurrentLinkWidth": lanes})  # fmt: skip

    assert AdapterBus(f"pcie {generation} x{lanes}") == found


def test_a_usb_adapter_has_no_row_and_no_known_rate() -> None:
    assert () == of("hardware-none", "hardware")
    assert AdapterBus("usb") == bus(GERMAN["Ethernet"].device, None)


def test_a_card_that_tells_no_speed_has_an_unknown_bus() -> None:
    assert bus(GERMAN["WLAN"].device, HARDWARE["WLAN"]) is None
    assert bus(None, None) is None


@pytest.mark.parametrize(
    "change", [{"PciDeviceType": 0}, {"PciExpressCurrentLinkWidth": 3}, {"PciExpressCurrentLinkSpeedEncoded": 7}]
)
def test_a_bus_that_makes_no_sense_is_unknown(change: dict[str, int]) -> None:
    assert bus("PCI\\VEN_0000", {**HARDWARE["Ethernet 2"], **change}) is None


def test_automatic_speed_is_no_forced_rate_and_the_listed_ones_are_highest_first() -> None:
    """Standardized INF Keywords for Network Devices: 4 and 6 are 100 Mb/s and 1 Gb/s full, 7 is 10 Gb/s, from 1000 on
    the value is in Mb/s; *JumboPacket counts the Ethernet header of 14 octets."""
    expected = Settings(None, (10_000_000_000, 5_000_000_000, 2_500_000_000, 1_000_000_000, 100_000_000), 9000)

    assert expected == settings(of("settings-7", "settings"), "Ethernet 2")


def test_a_forced_speed_is_named() -> None:
    expected = Settings(100_000_000, (100_000_000, 10_000_000), 1500)

    assert expected == settings(of("settings-7", "settings"), "Ethernet")


def test_settings_in_wrapped_arrays_of_version_5_1_are_read_alike() -> None:
    expected = Settings(1_000_000_000, (10_000_000_000, 1_000_000_000), 1500)

    assert expected == settings(of("settings-5.1", "settings"), "Ethernet 2")


@pytest.mark.parametrize(
    ("value", "mbit_per_s"),
    [("1", 10), ("2", 10), ("3", 100), ("4", 100), ("5", 1000), ("6", 1000), ("7", 10_000), ("8", 20_000),
     ("9", 40_000), ("10", 100_000), ("1000", 1000), ("2500", 2500), ("50000", 50_000)],
)  # fmt: skip
def test_a_speed_is_set_by_its_documented_value(value: str, mbit_per_s: int) -> None:
    """Windows driver documentation, Standardized INF Keywords for Network Devices: the table of *SpeedDuplex."""
    row = {"Name": "Ethernet", "RegistryKeyword": "*SpeedDuplex", "RegistryValue": value}

    assert Settings(mbit_per_s * 10**6) == settings([row], "Ethernet")


@pytest.mark.parametrize("told", [("1000000000", None), (None, "1000000000")])
def test_one_direction_as_a_number_outweighs_the_words(told: tuple[str | None, str | None]) -> None:
    row = {"ifIndex": 7, "TransmitLinkSpeed": told[0], "ReceiveLinkSpeed": told[1], "LinkSpeed": "10 Gbps"}

    assert [10**9] == [each.rate_bit_per_s for each in adapters([row])]


@pytest.mark.parametrize("value", ["11", "999", "auto", "-1", "99999999", ""])
def test_a_speed_that_nobody_documents_is_unknown(value: str) -> None:
    row = {"Name": "Ethernet", "RegistryKeyword": "*SpeedDuplex", "RegistryValue": value}

    assert Settings() == settings([row], "Ethernet")
