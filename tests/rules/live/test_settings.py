"""Settings: the exact step on each system, what it costs, and every name quoted for the shell that reads it.

The commands from memory of nmcli(1), nm-settings-nmcli(5), systemd.network(5), systemd.link(5), ip-address(8), ethtool(8),
networksetup(8) and ifconfig(8). Microsoft's reference of New-NetIPAddress: where DHCP is enabled on the interface it is
disabled by it.
"""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Interface, IPv6Address, IPv6Interface

import pytest
from deskwork import situation

from netaudit.model.observation import Observation
from netaudit.rules.live.desk import EN5, EXPECTED, SEEN, VAULT, with_interface
from netaudit.rules.live.settings import (
    address_step,
    hosts_entry,
    negotiate_step,
    own_address_step,
    set_mtu,
    show_mtu,
)

ADDRESS = IPv4Interface("10.55.30.11/24")
LINUX = SEEN._replace(manager=None)
NETWORKD = SEEN._replace(manager="networkd")
MAC = SEEN._replace(system="macos", manager=None)
WINDOWS = SEEN._replace(system="windows", manager=None)
CONNECTION = '"$(nmcli -g GENERAL.CONNECTION device show en5)"'


@pytest.mark.parametrize(
    ("seen", "text"),
    [
        (
            MAC,
            "`sudo ifconfig en5 alias 10.55.30.11 255.255.255.0` adds it until the next start; to keep it, System "
            "Settings, Network, the service of en5, Details, TCP/IP: Configure IPv4 Manually, 10.55.30.11, mask "
            "255.255.255.0, Router left empty, which replaces what en5 has now (10.44.20.11): no internet by that port "
            "any more",
        ),
        (
            WINDOWS,
            "as administrator `New-NetIPAddress -InterfaceAlias 'en5' -IPAddress 10.55.30.11 -PrefixLength 24`, without "
            "-DefaultGateway; where DHCP gave en5 what it has now (10.44.20.11), DHCP ends there by it, and the internet "
            "by that port with it",
        ),
        (
            SEEN,
            f"`nmcli connection modify {CONNECTION} +ipv4.addresses 10.55.30.11/24`, then `nmcli device reapply en5`, "
            "which adds it to what en5 has",
        ),
        (
            NETWORKD,
            "a further line `Address=10.55.30.11/24` under [Network] in the .network file of en5, then "
            "`networkctl reload`",
        ),
        (LINUX, "`sudo ip address add 10.55.30.11/24 dev en5`, which holds until the next start"),
    ],
)
def test_an_address_is_added_or_what_it_replaces_is_told(seen: Observation, text: str) -> None:
    assert text == address_step(situation(seen), "en5", ADDRESS)


@pytest.mark.parametrize("seen", [SEEN, NETWORKD, LINUX])
def test_linux_keeps_its_method_its_gateway_and_the_addresses_it_has(seen: Observation) -> None:
    step = address_step(situation(seen), "en5", ADDRESS)

    for word in ("method", "gateway", "Gateway", "never-default", " ipv4.addresses"):
        assert word not in step


@pytest.mark.parametrize("seen", [MAC, WINDOWS])
def test_only_ipv4_addresses_are_replaced_and_none_is_made_up(seen: Observation) -> None:
    bare = with_interface(EN5._replace(addresses=()), seen)
    six = with_interface(EN5._replace(addresses=(IPv6Interface("fe80::1/64"),)), seen)

    assert "(" not in address_step(situation(bare), "en5", ADDRESS)
    assert "(" not in address_step(situation(six), "en5", ADDRESS)
    assert "(" not in address_step(situation(seen), "en9", ADDRESS)


def test_the_planned_port_is_given_its_address_where_interface_and_subnet_are_known() -> None:
    wire = EXPECTED.ports["wire"]

    assert " (`sudo ip address add 10.44.20.11/24 dev en5`, which holds until the next start)" == own_address_step(
        situation(LINUX), wire
    )
    assert "" == own_address_step(situation(LINUX), wire._replace(subnets=()))
    assert "" == own_address_step(situation(LINUX), wire._replace(addresses=(IPv6Address("fd44::11"),)))
    assert "" == own_address_step(situation(LINUX._replace(interfaces={})), wire)


@pytest.mark.parametrize(
    ("seen", "shows", "sets"),
    [
        (MAC, "networksetup -getMTU en5", "Set en5 to 1500 with `sudo networksetup -setMTU en5 1500`"),
        (
            WINDOWS,
            "netsh interface ipv4 show subinterfaces",
            "Set en5 to 1500: the adapter's property Jumbo Packet first, then as administrator `netsh interface ipv4 set "
            'subinterface "en5" mtu=1500 store=persistent`',
        ),
        (
            SEEN,
            "ip link show en5",
            f"Set en5 to 1500 with `nmcli connection modify {CONNECTION} 802-3-ethernet.mtu 1500`, and connect it again",
        ),
        (
            NETWORKD,
            "ip link show en5",
            "Set en5 to 1500 with `MTUBytes=1500` under [Link] in its .network file, then `networkctl reload`",
        ),
        (
            LINUX,
            "ip link show en5",
            "Set en5 to 1500 with `sudo ip link set en5 mtu 1500`, and in its settings to keep it",
        ),
    ],
)
def test_a_size_is_shown_and_set_in_the_way_of_each_system(seen: Observation, shows: str, sets: str) -> None:
    assert (shows, sets) == (show_mtu(situation(seen), "en5"), set_mtu(situation(seen), "en5", 1500))


@pytest.mark.parametrize(
    ("seen", "text"),
    [
        (MAC, "`networksetup -getMedia en5` shows it, `sudo networksetup -setMedia en5 autoselect` sets it."),
        (
            WINDOWS,
            "`Get-NetAdapterAdvancedProperty -Name 'en5' -RegistryKeyword '*SpeedDuplex'` shows it, and as administrator "
            "`Set-NetAdapterAdvancedProperty -Name 'en5' -RegistryKeyword '*SpeedDuplex' -RegistryValue 0` sets it.",
        ),
        (
            SEEN,
            f"`ethtool en5` shows it, `nmcli connection modify {CONNECTION} 802-3-ethernet.auto-negotiate yes "
            '802-3-ethernet.speed 0 802-3-ethernet.duplex ""` sets it when it is connected again.',
        ),
        (
            NETWORKD,
            "`ethtool en5` shows it, `AutoNegotiation=yes` under [Link] in its .link file sets it at the next start.",
        ),
        (LINUX, "`ethtool en5` shows it, `sudo ethtool -s en5 autoneg on` sets it until the next start."),
    ],
)
def test_a_port_is_left_to_agree_by_itself_in_the_way_of_each_system(seen: Observation, text: str) -> None:
    assert text == negotiate_step(situation(seen), "en5")


@pytest.mark.parametrize(
    ("seen", "path"),
    [(LINUX, "/etc/hosts"), (MAC, "/etc/hosts"), (WINDOWS, r"C:\Windows\System32\drivers\etc\hosts")],
)
def test_a_name_is_tied_to_one_address_in_the_file_of_each_system(seen: Observation, path: str) -> None:
    assert (
        f"the line `10.44.20.10 vault` in {path}, as administrator and in place of any other with that name"
        == hosts_entry(situation(seen), VAULT)
    )
    assert "the line `ADDRESS vault` in " in hosts_entry(situation(seen), None)


def test_a_name_of_an_interface_cannot_break_out_of_a_command() -> None:
    name = "en5; rm x"

    for seen in (LINUX, SEEN, MAC):
        for text in (
            address_step(situation(seen), name, ADDRESS),
            set_mtu(situation(seen), name, 1500),
            negotiate_step(situation(seen), name),
            show_mtu(situation(seen), name),
        ):
            assert "'en5; rm x'" in text
    assert "-InterfaceAlias 'it''s'" in address_step(situation(WINDOWS), "it's", ADDRESS)
    assert "-Name 'it''s'" in negotiate_step(situation(WINDOWS), "it's")
    assert IPv4Address("10.44.20.10") == VAULT
